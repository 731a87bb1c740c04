"""The shop: its folder and the settings in shop.toml, found upwards from where one stands."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Annotated, Literal, NamedTuple, Self

from claimpack.core.clauses.picture_doubts import PictureLimits
from claimpack.core.facts.fields import Currency
from claimpack.core.facts.record import Record
from claimpack.core.pricing.retail import Retail
from claimpack.core.settlement.accounts import Accounts
from claimpack.core.values.days import Day
from claimpack.core.values.marks import AfterValidator, model_validator
from claimpack.core.values.money import NotNegative, PartOfOne
from claimpack.core.values.opening_hours import opening
from claimpack.core.values.passwords import without_password
from claimpack.core.values.typed.days import DateOrder
from claimpack.core.values.typed.mail import MailAddress
from claimpack.core.values.typed.stores import VaultPlace, is_store
from claimpack.core.values.words import Line, Named, Text, folded
from claimpack.errors import NotFound
from claimpack.folder.shop_folder import SHOP_FILE, shop_above
from claimpack.folder.toml_files import read_record

OWN_FOLDERS = ("coverage", "terms", "packet", "tag", "forms", "campaigns", "parts", "statements")
"""The folders of a shop that hold what it made or changed itself."""

COPIES = "vault-copies"
"""The folder of a shop with copies of what is in a store; it can be done without at any time."""


class RetailRate(Record):
    """What the shop charges an hour at the counter, from a day on.

    Args:
        since: the first day it is charged.
        rate: what owners are charged an hour, as in `"98.00"`.
    """

    since: Day
    rate: NotNegative


class StaffMember(Record):
    """Somebody who works in the shop.

    Args:
        name: the name, as in `Ben Marsh`.
        phone: a phone of their own, where audits are to know it.
    """

    name: Named
    phone: Line = ""


def _short_word(text: str) -> str:
    if text and not re.fullmatch(r"[a-z][a-z0-9-]{0,15}", text):
        raise ValueError(f"{text!r} is no shop's id: small letters, digits and '-', at most 16, a letter first")
    if text == "all":
        raise ValueError("'all' is no shop's id: it means every shop of the book")
    return text


def _prefix(text: str) -> str:
    if text and not re.fullmatch(r"[A-Za-z][A-Za-z0-9]{0,7}-?", text, re.ASCII):
        raise ValueError(f"{text!r} begins no claim number: letters and digits, at most 8, a letter first, '-' last")
    return text


ShopId = Annotated[Line, AfterValidator(_short_word)]
"""What a book of several shops calls one of them."""


NumberPrefix = Annotated[Line, AfterValidator(_prefix)]
"""What a shop's claim numbers begin with, before the year."""


class ShopSettings(Record):
    """What a shop says of itself; every key may be absent. Dealer numbers, levels and terms are given by maker.

    Args:
        format: the form of the file, always 1.
        id: what the book calls the shop, where it holds several: a short word, as in `ashby`.
        shops: the folders of the book's other shops, where this machine has them, by id, as in `{hollis =
            "../hollis"}`; terms in force for their claims are looked up there.
        numbers: what stands before the year in claim numbers that the shop counts, as in `H` for `H26-0001`.
        name: the shop's name, as it is printed.
        address: the shop's postal address, on one line or more.
        phone: the shop's phone number.
        email: the shop's mail address.
        currency: what amounts are in where no plan says so, a code of ISO 4217, as in `USD`.
        dealer_numbers: what makers call the shop, by maker, as in `{halden = "D-20417"}`.
        dealer_levels: the shop's level with makers that pay by level, by maker, in the word of the plan, as in `{halden
            = "gold"}`.
        maker_addresses: where letters to a maker go, by maker, as in `{halden = "40 Foundry Lane, Northgate"}`.
        terms: the id of the payment terms in force, as in `us-tx`.
        maker_terms: the id of other payment terms in force with a maker, by maker, as in `{halden = "us-tx"}`.
        maker_forms: the id of the form that a maker wants filled, by maker, as in `{halden = "halden-w7"}`.
        maker_mail: where a maker takes claims by mail, by maker, as in `{halden = "claims@halden.example.com"}`.
        maker_subjects: the subject a maker asks for, with keys of the claim, by maker, as in `{halden = "Claim
            {number}"}`.
        labour_rates: what owners are charged an hour, each rate from a day on, as in `[{since = 2026-01-01, rate =
            "98.00"}]`.
        owner_tax: the tax on what owners pay, as a fraction, as in `"0.07"`.
        layout: the id of the layout of packets, as in `letter`.
        stock: the id of the stock of tags, as in `shipping-tag-8`.
        originals: whether packets carry photos and papers themselves, without their location.
        book: where the book is: a file in the shop's folder, or a URL, as in `postgresql://shop@host/claims`.
        vault: where photos and papers are: a folder in the shop's folder or elsewhere, or a store of objects, as in
            `s3://bucket/prefix`; left out it is the folder `vault` there, and for a shop with an id beside the file of
            the book.
        sign: the key that packets are signed with, a PKCS#12 file in the shop's folder, as in `shop.p12`.
        pictures: from where on a picture is doubted, as in `{dark = "0.20", long_edge = 1024}`.
        audit_off: ids of audit rules that are not for this shop.
        opening_hours: when the shop is open, by weekday; a day left out is shut, as in `{mon = "08:00-17:30"}`.
        holidays: days on which the shop is shut whatever the weekday.
        staff: who works in the shop, as in `[{name = "Ben Marsh", phone = "555-0101"}]`.
        dates: how the shop writes days in figures: 3/4 is 4 March month-first, and 3 April day-first.
        accounts: the accounts that entries of the journal name, as in `{money = "1010", receivable = "1210"}`.
        maker_accounts: the account a maker's payments go to where it is another, by maker, as in `{halden = "2110"}`.
        ageing: whether ages of claims are counted from the last filing, the first, or the day payment was due.
    """

    format: Literal[1] = 1
    id: ShopId = ""
    shops: dict[ShopId, Line] = {}
    numbers: NumberPrefix = ""
    name: Line = ""
    address: Text = ""
    phone: Line = ""
    email: Line = ""
    currency: Currency | None = None
    dates: DateOrder = ""
    dealer_numbers: dict[str, Line] = {}
    dealer_levels: dict[str, Line] = {}
    maker_addresses: dict[str, Text] = {}
    terms: Line = ""
    maker_terms: dict[str, Line] = {}
    maker_forms: dict[str, Line] = {}
    maker_mail: dict[str, MailAddress] = {}
    maker_subjects: dict[str, Line] = {}
    labour_rates: tuple[RetailRate, ...] = ()
    owner_tax: PartOfOne = Decimal(0)
    layout: Line = ""
    stock: Line = ""
    originals: bool = False
    book: Line = "book.sqlite"
    vault: VaultPlace = "vault"
    sign: Line = ""
    pictures: PictureLimits = PictureLimits.model_construct()
    audit_off: tuple[Line, ...] = ()
    opening_hours: dict[str, Line] = {}
    holidays: tuple[Day, ...] = ()
    staff: tuple[StaffMember, ...] = ()
    accounts: Accounts = Accounts.model_construct()
    maker_accounts: dict[str, Line] = {}
    ageing: Literal["filed", "first filed", "due"] = "filed"

    @model_validator(mode="after")
    def _one_rate_a_day(self) -> Self:
        days = [rate.since for rate in self.labour_rates]
        twice = next((day for day in days if days.count(day) > 1), None)
        if twice:
            raise ValueError(f"labour_rates has two rates since {twice}; which of them counts nobody could tell")
        return self

    @model_validator(mode="after")
    def _opens_before_it_shuts(self) -> Self:
        opening(self.opening_hours)
        return self

    @model_validator(mode="after")
    def _makers_are_makers(self) -> Self:
        for table in _OF_MAKERS:
            stray = next((key for key in getattr(self, table) if key in _SETTINGS), None)
            if stray:
                raise ValueError(
                    f"{table}.{stray} is a setting of the shop, and below [{table}] it counts as a maker's name; "
                    "move its line up, above the first line in [ ]"
                )
        return self

    def templates_named(self) -> list[tuple[str, str, str]]:
        """Every template that the settings name: the key, the kind, the id."""
        of_makers = [(f"maker_terms.{maker}", "terms", named) for maker, named in self.maker_terms.items()]
        of_makers += [(f"maker_forms.{maker}", "forms", named) for maker, named in self.maker_forms.items()]
        own = [("terms", "terms", self.terms), ("layout", "packet", self.layout), ("stock", "tag", self.stock)]
        return [(key, kind, named) for key, kind, named in (*own, *of_makers) if named]

    def dealer_number(self, *maker: str) -> str:
        """The shop's number with a maker, by the first of its spellings that has one, or an empty text."""
        return _by_maker(self.dealer_numbers, maker)

    def address_of(self, *maker: str) -> str:
        """Where letters to a maker go, by the first of its spellings that has one, or an empty text."""
        return _by_maker(self.maker_addresses, maker)

    def terms_for(self, *maker: str) -> str:
        """The id of the payment terms in force with a maker, by its spellings: the maker's own, else the shop's."""
        return _by_maker(self.maker_terms, maker) or self.terms

    def form_for(self, *maker: str) -> str:
        """The id of the form that a maker wants filled, by its spellings; empty where it takes the packet alone."""
        return _by_maker(self.maker_forms, maker)

    def mail_for(self, *maker: str) -> tuple[str, str]:
        """Where a maker takes claims by mail, and the subject it asks for, by its spellings; each may be empty."""
        return _by_maker(self.maker_mail, maker), _by_maker(self.maker_subjects, maker)

    def account_for(self, *maker: str) -> str:
        """The account that a maker's payments go to, by its spellings: its own, else the shop's for money."""
        return _by_maker(self.maker_accounts, maker) or self.accounts.money

    def retail(self, on: date) -> Retail:
        """What the shop charges an owner on a day."""
        rates = [entry for entry in self.labour_rates if entry.since <= on]
        latest = max(rates, key=lambda entry: entry.since, default=None)
        return Retail(labour_rate=latest.rate if latest else None, tax=self.owner_tax, levels=self.dealer_levels)


_OF_MAKERS = (
    "dealer_numbers",
    "dealer_levels",
    "maker_terms",
    "maker_addresses",
    "maker_forms",
    "maker_mail",
    "maker_subjects",
    "maker_accounts",
)
_SETTINGS = {*ShopSettings.declared, *RetailRate.declared, *StaffMember.declared}


class Shop(NamedTuple):
    """A shop's folder and settings; the folder is None where no shop was found."""

    folder: Path | None
    settings: ShopSettings

    def home(self) -> Path:
        """The shop's folder.

        Raises:
            NotFound: no shop was found.
        """
        if self.folder is None:
            raise NotFound(
                f"there is no shop here: no {SHOP_FILE} in this folder or above it",
                "The book of claims lies in the shop's folder.",
                "Make one with: claimpack shop init FOLDER; or name it in CLAIMPACK_SHOP.",
            )
        return self.folder

    def book_place(self) -> str:
        """Where the book is: a path, or a URL."""
        place = self.settings.book
        return place if "://" in place else str(self.home() / place)

    def book_shown(self) -> str:
        """Where the book is, as it may be shown to anybody: a path, or a URL without its password."""
        return without_password(self.settings.book)

    def vault_folder(self) -> Path:
        """Where photos and papers are kept on this machine; copies of them where they are in a store.

        Shops that share the file of a book share the vault beside it.
        """
        settings, place = self.settings, self.book_place()
        if settings.id and "vault" not in settings.model_fields_set and "://" not in place:
            return Path(place).parent / settings.vault
        return self.home() / (COPIES if is_store(settings.vault) else settings.vault)


def find_shop(start: Path, named: str = "") -> Shop:
    """The shop whose folder is named, else the nearest one above `start`; one without settings where there is none.

    Raises:
        NotFound: the folder named holds no shop.toml.
        BadInput: the settings have problems.
    """
    if named:
        folder = Path(named)
        if not (folder / SHOP_FILE).is_file():
            raise NotFound(
                f"CLAIMPACK_SHOP: there is no {SHOP_FILE} in {folder}",
                "The variable names the folder of the shop.",
                "Correct it, or unset it.",
            )
        return Shop(folder, read_record(ShopSettings, folder / SHOP_FILE))
    found = shop_above(start)
    if found is None:
        return Shop(None, ShopSettings.model_construct())
    return Shop(found, read_record(ShopSettings, found / SHOP_FILE))


def _by_maker(table: dict[str, str], spellings: Iterable[str]) -> str:
    by_word = {folded(name): value for name, value in table.items()}
    return next((by_word[folded(maker)] for maker in spellings if folded(maker) in by_word), "")
