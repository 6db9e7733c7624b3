"""The card at the rack: one page to print and pin up."""

from topheavy.present.card.card import card_pdf

__all__ = ["card_pdf"]
