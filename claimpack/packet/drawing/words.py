"""Every word printed on the packet's pages, so that a shop may have it in its own language."""

from __future__ import annotations

from collections.abc import Mapping

from claimpack.core.claims.claim import Record
from claimpack.core.values.words import Named, Text


class Words(Record):
    """The printed words of a layout, in the order of the pages; those younger than a shop's own layout are English."""

    claim: Named
    document_title: Named
    footer: Named
    yes: Named
    no: Named
    not_noted: Named
    none_given: Named
    cover: Named
    reasons: Named
    story: Named
    findings: Named
    money: Named
    photos: Named
    papers: Named
    held: Named
    dates: Named
    missing: Named
    declaration: Named
    files: Named
    covered: Named
    not_covered: Named
    undecided: Named
    goodwill: Named = "REQUEST FOR GOODWILL"
    goodwill_because: Named = "Reason"
    goodwill_asks: Named = "Asked for"
    goodwill_no_reason: Named = "no reason is given yet"
    filed_anyway: Named = "Filed all the same"
    judged: Named
    judged_today: Named
    days_left: Named
    hours_left: Named
    maker: Named
    shop: Named
    dealer_number: Named
    not_ready: Named
    more_missing: Named
    amount_claimed: Named
    would_be: Named = "If it were covered"
    not_priced: Named
    parts: Named
    handling: Named
    makers_tax: Named = "Tax"
    labour: Named
    extras: Named
    owner_pays: Named
    shop_bears: Named
    approval: Named
    approval_on: Named
    approval_by: Named
    approval_up_to: Named
    approval_until: Named
    dates_title: Named
    unit: Named
    model: Named
    serial: Named
    kind: Named
    use: Named
    hours: Named
    no_meter: Named
    built: Named
    invoiced: Named = "Invoiced to dealer"
    model_year: Named = "Model year"
    sold_in: Named
    owner: Named
    name: Named
    phone: Named
    email: Named
    address: Named
    first_owner: Named
    purchased: Named
    delivered: Named
    in_service: Named
    registered: Named
    never_registered: Named
    failed: Named
    presented: Named
    repaired: Named
    returned: Named = "Ready"
    resold: Named = "Sold again"
    transferred: Named = "Maker told"
    proof: Named
    proof_receipt: Named
    proof_registration: Named
    proof_dealer_record: Named
    proof_none: Named
    earlier: Named
    failed_part: Named
    component: Named
    defect: Named
    timeline: Named
    cover_starts: Named
    state_cited: Named
    state_open: Named
    state_closed: Named
    state_not_for_it: Named
    state_unknown: Named
    end_unknown: Named
    start_unknown: Named
    more_windows: Named
    plan_and_days: Named
    not_applying: Named
    hour_limit: Named
    cites: Named
    met: Named
    not_met: Named
    open_question: Named
    complaint: Named
    cause: Named
    correction: Named
    not_told: Named
    finding: Named
    value: Named
    limits: Named
    below: Named
    within: Named
    above: Named
    no_limits: Named
    at_least: Named
    at_most: Named
    number: Named
    description: Named
    quantity: Named
    unit_price: Named
    amount: Named
    operation: Named
    technician: Named
    schedule: Named
    clocked: Named
    claimed_hours: Named
    rate: Named
    extra: Named
    claimed: Named
    not_claimed: Named
    paid_by: Named
    payer_owner: Named
    payer_shop: Named
    payer_maker: Named
    total: Named
    as_stated: Named
    photo_of: Named
    taken: Named
    taken_unknown: Named
    pixels: Named
    pixels_here: Named = "printed here from {width} by {height}"
    no_picture: Named
    paper_page: Named
    part: Named
    shelf: Named
    boxed: Named
    drained: Named
    held_since: Named
    hold_until: Named
    hold_terms: Named
    hold_until_released: Named
    caution: Named
    hazard_fuel: Text
    hazard_lithium: Text
    hazard_wet_battery: Text
    caution_broken: Text
    caution_defer: Text
    what: Named
    on: Named
    why: Named
    time_title: Named
    time_left: Named
    time_past: Named
    last_day_today: Named
    to_decide: Named
    before_filing: Named
    worth_a_look: Named
    nothing_missing: Named
    declaration_text: Text
    declaration_tool: Text
    service_writer: Named
    signature: Named
    date: Named
    file: Named
    size: Named
    sha256: Named
    files_note: Text
    files_attached: Text = (
        "Files without a mark are attached to this document as they lie with the shop, with the claim's data and a "
        "list of the whole hashes. Size and SHA-256 are of the file as it lies with the shop."
    )
    files_cleaned: Text = (
        "* attached as a copy without what the camera or scanner wrote beside the picture, such as the place; it "
        "shows the same."
    )
    files_kept: Text = "† not attached; the file stays with the shop."


PLACES: Mapping[str, frozenset[str]] = {
    "document_title": frozenset({"claim"}),
    "footer": frozenset({"claim", "page", "pages"}),
    "judged_today": frozenset({"today"}),
    "days_left": frozenset({"period"}),
    "hours_left": frozenset({"hours"}),
    "dealer_number": frozenset({"number"}),
    "more_missing": frozenset({"count", "section"}),
    "approval_on": frozenset({"day"}),
    "approval_by": frozenset({"name"}),
    "approval_up_to": frozenset({"amount"}),
    "approval_until": frozenset({"day"}),
    "serial": frozenset({"role"}),
    "more_windows": frozenset({"count", "section"}),
    "hour_limit": frozenset({"hours"}),
    "at_least": frozenset({"limit"}),
    "at_most": frozenset({"limit"}),
    "photo_of": frozenset({"index", "count"}),
    "taken": frozenset({"day"}),
    "pixels": frozenset({"width", "height"}),
    "pixels_here": frozenset({"width", "height"}),
    "paper_page": frozenset({"file", "page", "pages"}),
    "hold_terms": frozenset({"period", "day"}),
    "time_left": frozenset({"period"}),
    "time_past": frozenset({"period"}),
}
"""The facts that some of the words carry, by key."""
