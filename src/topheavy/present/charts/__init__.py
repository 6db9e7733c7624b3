"""Charts: one description serves a page, a bitmap and a printed sheet."""

from topheavy.present.charts.chart import Chart
from topheavy.present.charts.inks import DARK, LIGHT, OF_PAGE
from topheavy.present.charts.render import chart_pdf, chart_png, chart_svg
from topheavy.present.charts.sizes import PAGE, PAPER, PHONE, Size

__all__ = [
    "DARK",
    "LIGHT",
    "OF_PAGE",
    "PAGE",
    "PAPER",
    "PHONE",
    "Chart",
    "Size",
    "chart_pdf",
    "chart_png",
    "chart_svg",
]
