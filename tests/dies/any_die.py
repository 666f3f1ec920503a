"""Any legal die, for tests that hold for all of them."""

from hypothesis import strategies as st

from mockup.dies import FAMILIES, make_die
from mockup.errors import DieError

SQUARE_ONLY = {"circle", "scalloped-circle"}


@st.composite
def dies(draw, names=tuple(FAMILIES)):
    """A die of any family, size and parameters; values are drawn wide and cut to what is legal."""
    name = draw(st.sampled_from(sorted(names)))
    width = draw(st.floats(1.5, 12))
    height = width if name in SQUARE_ONLY else draw(st.floats(1.5, 12))
    parameters = {}
    for parameter in FAMILIES[name].parameters:
        if draw(st.booleans()):
            parameters[parameter.name] = draw(_value(parameter, min(width, height)))
    try:
        return make_die(name, width, height, parameters)
    except DieError:
        # What is refused is tested apart; here a refused value gives way to the default.
        choices = {p.name for p in FAMILIES[name].parameters if p.kind == "choice"}
        kept = {key: value for key, value in parameters.items() if key in choices}
        try:
            return make_die(name, width, height, kept)
        except DieError:
            return make_die(name, width, width if name in SQUARE_ONLY else 2 * width)


def _value(parameter, least):
    if parameter.kind == "choice":
        return st.sampled_from(parameter.choices)
    if parameter.kind == "count":
        return st.integers(3, 24)
    if parameter.kind == "number":
        return st.floats(0.05, 8)
    if parameter.kind == "angle":
        return st.floats(60, 100)
    length = st.floats(0.03 * least, 0.6 * least)
    if parameter.kind == "corners":
        corner = st.one_of(st.just(0.0), st.floats(0.01 * least, 0.44 * least))
        return st.lists(corner, min_size=4, max_size=4)
    return length
