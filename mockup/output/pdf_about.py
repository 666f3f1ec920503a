"""What a PDF of ours says of itself: title, language, numbers of its pages, the colour it is in."""

from __future__ import annotations

import pikepdf

from mockup.output.png import srgb_profile

LANGUAGE = "en"


def describe(document: pikepdf.Pdf) -> None:
    """Says in the metadata what the file is, and numbers its pages as their feet do.

    It does not call itself PDF/UA (ISO 14289-1 5): no validator of all its rules has seen it yet.
    """
    told = document.docinfo
    with document.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as metadata:
        metadata["dc:title"] = str(told["/Title"])
        if str(told["/Author"]):
            metadata["dc:creator"] = [str(told["/Author"])]
        metadata["dc:description"] = str(told["/Subject"])
        metadata["dc:language"] = {LANGUAGE}
        metadata["xmp:CreatorTool"] = str(told["/Creator"])
        metadata["pdf:Producer"] = str(told["/Producer"])
    document.Root.ViewerPreferences = pikepdf.Dictionary(DisplayDocTitle=True)
    number = pikepdf.Dictionary(S=pikepdf.Name.D)
    document.Root.PageLabels = pikepdf.Dictionary(Nums=pikepdf.Array([0, number]))


def declare_srgb(document: pikepdf.Pdf) -> None:
    """Gives device RGB its meaning on every page: an sRGB profile (ISO 32000-1 8.6.5.6).

    Pictures name the profile themselves: they keep it where one is taken off its page.
    """
    profile = document.make_stream(srgb_profile(), N=3, Alternate=pikepdf.Name.DeviceRGB)
    space = document.make_indirect(pikepdf.Array([pikepdf.Name.ICCBased, profile]))
    for page in document.pages:
        page.resources["/ColorSpace"] = pikepdf.Dictionary(DefaultRGB=space)
        for picture in page.images.values():
            if picture.get("/ColorSpace") == pikepdf.Name.DeviceRGB:
                picture["/ColorSpace"] = space
