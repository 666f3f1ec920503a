"""The two invented printers of the bench: one presses thick stock and makes dies, the other prints
digitally, measures in millimetres, and makes none."""

LETTERPRESS = """
name = "Groyne Cutters"
currency = "USD"
[custom]
tool = 150
each = 0.3
minimum = 60
thickest_mil = 36
[[dies]]
die = "lancet-arch"
cards = { A7 = 0.58, A6 = 0.55 }
minimum = 30
thickest_mil = 24
[[dies]]
die = "chamfered-corner"
parameters = { cut = 0.5 }
cards = { A7 = 0.4, A2 = 0.4 }
[[dies]]
die = "tag"
cards = { A2 = 0.5 }
[[stocks]]
stock = "cotton-110-white"
each = 1.1
minimum = 20
[[stocks]]
stock = "cotton-220-white"
each = 2.1
[[stocks]]
stock = "smooth-120-white"
each = 0.8
[[stocks]]
stock = "smooth-100-white"
each = 0.7
cards = ["A2"]
[[finishes]]
finish = "foil"
stocks = ["cotton-110-white", "cotton-220-white"]
each = 0.4
minimum = 50
[[finishes]]
finish = "emboss"
each = 0.3
[[envelopes]]
size = "A7"
flaps = ["pointed", "straight"]
colours = ["white", "#22385a"]
each = 0.48
minimum = 25
step = 25
[[envelopes]]
size = "A6"
each = 0.44
liner = 0.6
[drilling]
each = 0.06
not_with = ["tag"]
[[never]]
dies = ["chamfered-corner"]
over_mil = 24
[printing]
thinnest_mil = 11
[files]
bleed = 0.125
"""
DIGITAL = """
name = "Sallow Digital"
currency = "EUR"
units = "mm"
[[dies]]
die = "rounded-corner"
parameters = { radius = 4 }
cards = { "105 x 148" = 0.09, "iso-a5" = 0.1, "148 x 148" = 0.1 }
thickest_mil = 16
[[dies]]
die = "round-arch"
cards = { "105 x 148" = 0.4 }
minimum = 50
[[stocks]]
stock = "smooth-300-gsm-white"
each = 0.4
step = 20
[[stocks]]
stock = "smooth-350-gsm-white"
each = 0.5
[[stocks]]
stock = "kraft-300-gsm"
each = 0.6
minimum = 40
[[finishes]]
finish = "varnish"
each = 0.1
[[envelopes]]
size = "C6"
flaps = ["straight"]
each = 0.3
[[envelopes]]
size = "C5"
flaps = ["straight", "pointed"]
each = 0.35
liner = 0.5
[printing]
thickest_mil = 18
backs = false
[files]
bleed = 3
"""
