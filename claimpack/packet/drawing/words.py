"""Every word printed on the packet's pages, so that a shop may have it in its own language."""

from __future__ import annotations

from collections.abc import Mapping

from claimpack.core.facts.record import Record
from claimpack.core.values.words import Named, Text


class Words(Record):
    """The printed words of a layout, in the order of the pages; those younger than a shop's own layout are English.

    Args:
        claim: what a claim is called, before its number.
        document_title: the title of the document.
        footer: below every page.
        yes: where something is so.
        no: where something is not so.
        not_noted: where the claim does not say whether.
        none_given: where a list of the claim is empty.
        cover: heading of the first page.
        reasons: heading of the reasons.
        story: heading of complaint, cause and correction.
        findings: heading of what was measured.
        money: heading of the amounts.
        money_for_owner: the same where the owner reads it.
        photos: heading of the photos.
        papers: heading of the papers.
        held: heading of the held parts.
        dates: heading of the dates to keep.
        missing: heading of what is missing.
        declaration: heading of the declaration.
        files: heading of the list of files.
        covered: the verdict that a window covers.
        not_covered: the verdict that none does.
        undecided: the verdict while that cannot be said.
        goodwill: instead of the verdict, where a favour is asked.
        goodwill_because: before why a favour is asked.
        goodwill_asks: before what is asked as a favour.
        goodwill_no_reason: where nobody wrote why a favour is asked.
        filed_anyway: before the reason for filing a claim that is late or not complete.
        judged: before the day the claim is judged on.
        judged_today: the day the packet was made.
        days_left: how long the cited window was still open.
        hours_left: how many hours the cited window had left.
        maker: before the maker.
        shop: before the shop.
        dealer_number: what the maker calls the shop.
        not_ready: above what is missing, on the first page.
        more_missing: below the first things that are missing.
        amount_claimed: before the amount claimed.
        would_be: before what a claim that is not covered would come to; under what its owner would pay, undecided.
        if_granted: under what the owner would pay, where the maker is asked a favour.
        if_repaired: the same, where the repair is not made yet.
        if_used: the same, where the owner declined the repair and parts are listed for it.
        not_priced: instead of amounts, where no plan is found.
        parts: before the amount for parts.
        handling: before what is added to parts.
        makers_tax: before the tax that the maker pays.
        other_maker_pays: before what is for a claim with another maker.
        labour: before the amount for labour.
        extras: before the amount for extras.
        owner_pays: before what the owner pays.
        shop_bears: before what the shop bears.
        approval: before the maker's approval.
        approval_on: the day of the approval.
        approval_by: who approved.
        approval_up_to: the amount approved.
        approval_until: the last day to repair under the approval.
        approval_asked: the day the approval was asked for.
        approval_refused: that the maker refused its approval.
        approval_refused_on: the same, with the day.
        approval_conditions: what the maker ties its approval to.
        dates_title: heading of the dates on the first page.
        unit: heading of what is said of the machine.
        model: before the model.
        serial: before a serial number, with what carries it.
        kind: before the kind of machine.
        use: before how it is used.
        hours: before the reading of the hour meter.
        no_meter: where the unit has no hour meter.
        built: before the day it was built.
        invoiced: before the day of the dealer's own invoice.
        model_year: before its model year.
        sold_in: before where it was sold.
        owner: heading of what is said of the owner.
        name: before a name.
        phone: before a phone number.
        email: before a mail address.
        address: before a postal address.
        first_owner: before whether it is the first owner.
        purchased: before the day it was bought.
        delivered: before the day it was handed over.
        in_service: before the day it was first used.
        registered: before the day it was registered.
        never_registered: where nobody registered it.
        failed: before the day it failed.
        presented: before the day it was brought in.
        repaired: before the day it was repaired.
        returned: before the day it was ready or fetched.
        resold: before the day the second owner bought it.
        transferred: before the day the maker was told of that.
        proof: before what shows the day of purchase.
        proof_receipt: a receipt shows it.
        proof_registration: the registration shows it.
        proof_dealer_record: the dealer's record shows it.
        proof_none: nothing shows it.
        earlier: before earlier repairs.
        failed_part: before the part that failed.
        component: before what failed, in the plan's word.
        defect: before the kind of defect.
        timeline: heading of the drawn windows.
        cover_starts: at the first day of cover in that drawing.
        state_cited: a window that the verdict cites.
        state_open: a window that is open.
        state_closed: a window that is over.
        state_not_for_it: a window for other components, uses or owners.
        state_unknown: a window of which nobody can say.
        end_unknown: where the last day of a window is not known.
        start_unknown: where the first day of a window is not known.
        more_windows: below the windows that are drawn.
        plan_and_days: heading of the reasons for the plan and the days.
        not_applying: above the windows that do not apply.
        hour_limit: the last reading a window covers.
        cites: before where a window is written.
        met: a reason that holds.
        not_met: a reason that does not hold.
        open_question: a reason of which nobody can say.
        complaint: before the complaint.
        cause: before the cause.
        correction: before the correction.
        not_told: where the claim does not give it.
        told_in_full: below complaint, cause and correction that are cut short, on the first page.
        case: before the kind of case, where it is no plain repair.
        case_stock: a dealer's unit that was not sold yet.
        case_part: a part that was sold over the counter or fitted earlier.
        case_campaign: a campaign of the maker.
        case_declined: a repair that the owner declined.
        part_sold: heading of the part that was sold.
        sold: before the day on the part's receipt.
        fitted: before the day the shop fitted the part.
        never_fitted: the shop did not fit it.
        for_model: before the machine a part was sold for.
        stock_unit: before who owns a unit in stock.
        no_owner_yet: that a unit in stock has no owner yet.
        question: heading of what the maker asked and the shop answered.
        asked_on: before the maker's question.
        answered_on: before the shop's answer.
        no_answer_yet: where the shop has not answered.
        finding: column of what was measured.
        value: column of what was found.
        limits: column of the limits.
        below: a finding under its limit.
        within: a finding within its limits.
        above: a finding over its limit.
        no_limits: a finding without limits.
        at_least: a lower limit alone.
        at_most: an upper limit alone.
        number: column of part numbers.
        description: column of what parts are called.
        quantity: column of how many.
        unit_price: column of what one costs.
        amount: column of amounts.
        operation: column of operations.
        technician: column of who did it.
        schedule: column of the hours of the maker's schedule.
        clocked: column of the hours worked, by start and end or as stated.
        claimed_hours: column of the hours claimed.
        rate: column of what an hour is paid.
        extra: column of extras.
        claimed: heading of the lines the maker is to pay.
        not_claimed: heading of the other lines.
        paid_by: column of who pays.
        payer_owner: the owner, in that column.
        payer_shop: the shop, in that column.
        payer_maker: the maker, in that column.
        payer_other_maker: another maker, in that column.
        total: before a sum.
        continued: above the rest of a table on the next page.
        as_stated: heading of lines without prices.
        photo_of: which photo of how many.
        taken: the day a photo was taken.
        taken_unknown: a photo that does not say when it was taken.
        pixels: how large a photo was.
        pixels_here: how large it was, and is printed smaller.
        no_picture: instead of a photo that cannot be drawn.
        paper_page: below a page of a paper.
        part: before a held part.
        shelf: before its shelf.
        boxed: before whether it is in its box.
        drained: before whether it was drained.
        held_since: before the day it was put there.
        hold_until: before the last day it is held.
        hold_terms: how long the maker wants parts held.
        hold_until_released: where no last day is known.
        caution: before the cautions.
        hazard_fuel: the caution for parts with fuel.
        hazard_lithium: the caution for lithium batteries.
        hazard_wet_battery: the caution for wet batteries.
        caution_broken: the caution for broken parts.
        caution_defer: below the cautions.
        what: column of what must be done.
        on: column of the day.
        why: column of the reason.
        time_title: column of the time left.
        time_left: how long until a day.
        time_past: how long since a day.
        last_day_today: a last day that is today.
        to_decide: above the facts that would decide the claim.
        before_filing: above what is needed to file.
        worth_a_look: above what does not hinder filing.
        nothing_missing: where nothing is missing.
        not_enclosed: heading of what is missing from a claim that is filed all the same.
        not_as_asked: heading of what is there in such a claim and not as the plan asks for it.
        declaration_text: what the shop declares of a repair that is done.
        declaration_unrepaired: what it declares where no day of repair is given.
        declaration_part: what it declares of a part that was sold over the counter.
        declaration_tool: what the program declares.
        service_writer: below the line for the service writer's name.
        signature: below the line for the signature.
        date: below the line for the day.
        file: column of file names.
        size: column of sizes.
        sha256: column of hashes.
        files_note: below the files, where none is attached.
        files_attached: below the files, where files are attached.
        files_cleaned: what the mark * beside a file says.
        files_kept: what the mark † beside a file says.
    """

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
    money_for_owner: Named = "Who pays what"
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
    if_granted: Named = "If the maker grants the goodwill asked for"
    if_repaired: Named = "If it is repaired as listed"
    if_used: Named = "If the parts listed were used"
    not_priced: Named
    parts: Named
    handling: Named
    makers_tax: Named = "Tax"
    other_maker_pays: Named = "Other maker"
    labour: Named
    extras: Named
    owner_pays: Named
    shop_bears: Named
    approval: Named
    approval_on: Named
    approval_by: Named
    approval_up_to: Named
    approval_until: Named
    approval_asked: Named = "asked for {day}"
    approval_refused: Named = "refused"
    approval_refused_on: Named = "refused {day}"
    approval_conditions: Named = "on this condition: {text}"
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
    told_in_full: Named = "In full under “{section}”"
    case: Named = "Case"
    case_stock: Named = "unit in dealer's stock"
    case_part: Named = "part sold"
    case_campaign: Named = "campaign {campaign}"
    case_declined: Named = "repair declined by the owner"
    part_sold: Named = "Part sold"
    sold: Named = "Sold"
    fitted: Named = "Fitted"
    never_fitted: Named = "not by the shop"
    for_model: Named = "For"
    stock_unit: Named = "In stock"
    no_owner_yet: Named = "not sold yet, no owner"
    question: Named = "The maker's question, and our answer"
    asked_on: Named = "Asked {day}"
    answered_on: Named = "Answered {day}"
    no_answer_yet: Named = "No answer is written down yet."
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
    payer_other_maker: Named = "other maker"
    total: Named
    continued: Named = "continued"
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
    not_enclosed: Named = "Not enclosed"
    not_as_asked: Named = "Not as the plan asks for it"
    declaration_text: Text
    declaration_unrepaired: Text = (
        "The shop states that the facts in this packet are true to its knowledge: the failure, the measurements and "
        "any time worked are those of this unit, and the pictures show it and its parts. It does not state that the "
        "unit is repaired."
    )
    declaration_part: Text = (
        "The shop states that the facts in this packet are true to its knowledge: the part, its failure and any "
        "measurements are those of this claim, and the pictures show that part."
    )
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
    "case_campaign": frozenset({"campaign"}),
    "asked_on": frozenset({"day"}),
    "answered_on": frozenset({"day"}),
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
    "approval_asked": frozenset({"day"}),
    "approval_refused_on": frozenset({"day"}),
    "approval_conditions": frozenset({"text"}),
    "serial": frozenset({"role"}),
    "more_windows": frozenset({"count", "section"}),
    "told_in_full": frozenset({"section"}),
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
