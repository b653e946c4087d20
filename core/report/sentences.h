// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Every sentence of the report that is its own, in one place: another language is another of these.
/// {0}, {1} … are filled in, in any order.

#include <string>
#include <string_view>

#include <fmt/format.h>

namespace ullage {

/// A sentence with its blanks filled.
template <class... Values>
std::string filled(std::string_view sentence, const Values&... values) {
    return fmt::vformat(sentence, fmt::make_format_args(values...));
}

namespace sentences {

inline constexpr std::string_view
    // Title
    title = "How full, when, and what to do: {0}",
    prepared_for = "Prepared for", prepared_by = "Prepared by", as_of = "As of", logo = "Logo",
    page_of = "Page {0} of {1}",

    // The answer
    answer_heading = "The answer in three sentences",
    answer_full = "{0} is full today: nothing more can be written there.",
    answer_over = "{0} has already passed the level to act at ({1} full) today.",
    answer_when = "{0} will most likely be {1} full, the level to act at, in {2} (around {3}); in 8 of 10 "
                  "futures that we drew it takes {4}.",
    answer_when_open = "{0} will most likely be {1} full, the level to act at, in {2} (around {3}), hardly sooner "
                       "than in {4}, and perhaps not within {5}.",
    answer_perhaps = "Most likely no box reaches the level to act at within {0}; the likeliest to do so is {1}, "
                     "which reaches {2} full in {3}.",
    answer_never = "No box reaches the level to act at within {0} in any future that we drew; the fullest then is {1}, "
                   "at {2}.",
    answer_no_box = "No box is forecast, since none has a stated size.",
    answer_one_send = "The regular copy “{0}” arrives in time: it is made in the hours that the line is open for it.",
    answer_both_sends = "Both regular copies arrive in time: each is made in the hours that the line is open for it.",
    answer_all_sends = "All {0} regular copies arrive in time: each is made in the hours that the line is open for it.",
    answer_send_late = "The regular copy “{0}” does not arrive in time: {1} of its runs take longer than the line is "
                       "open for them.",
    answer_send_tight = "The regular copy “{0}” mostly arrives in time, but {1} of its runs take longer than the line "
                        "is open for them.",
    answer_send_behind = "The regular copy “{0}” falls behind for good from about {1}: more changes than the line "
                         "carries.",
    answer_send_never = "The first copy of “{0}” is not complete over the line within {1}: carry it by hand, or use a "
                        "faster line.",
    answer_no_send = "No copy is sent to another box in this plan, so nothing here protects against the loss of a box.",
    answer_offer = "We propose “{0}” for {1}, {2} in all over {3}{4}.",
    answer_offer_by = ", ordered by {0}", answer_offer_now = ", ordered now",
    answer_offer_more = ", and one more purchase that is named below",
    answer_offers_more = ", and {0} more purchases that are named below",
    answer_order = "More space for {0} should be ordered by {1}; offers to compare were not given.",
    answer_order_now = "More space for {0} should be ordered now; offers to compare were not given.",
    answer_no_offer = "None of the offers for {0} is sure enough to last for {1}, so ask for others.",
    answer_nothing = "Nothing needs to be bought now.",

    between = "between {0} and {1}", none = "none", all = "all", nearly_none = "fewer than 0.1 %",
    nearly_all = "more than 99.9 %",

    // How full, when
    full_heading = "How full, when",
    full_lead = "We drew {0} possible futures from what is known of the data, and counted when each box comes to the "
                "level at which to act, and when it is full.",
    boxes_caption = "All boxes", box = "Box", status = "Status", usable = "Usable", used_now = "Used today",
    level = "Level to act at", early = "Early (1 in 10)", middle = "Likely", late = "Late (9 in 10)",
    full_at = "Full (likely)", end = "Full at the end", not_within = "not within {0}", today = "today",
    no_boxes = "No box has drives or a usable size stated, so how full it gets cannot be said.",
    gauge_title = "Days until full: {0}",
    gauge_text = "Each round mark is one of 20 equally likely futures, at the time it reaches the level to act at. {0}",
    fill_title = "How full {0} gets",
    fill_text = "{0} On {1} the middle forecast is {2}; in 8 of 10 futures it is between {3} and {4}.",
    fill_now = "Today {0} are used, which is {1} of {2} usable.",
    fill_later = "It is in service from {0}, with {1} usable.", from_day = "from {0}",
    band = "How to read the picture of {0}: the line in the middle is the forecast that half of the futures stay below. "
           "The dark band holds half of all futures, the light one 8 of 10; 1 in 10 ends above it and 1 in 10 below. "
           "On {1} the light band reaches from {2} to {3}. A broad band means that little is known.",
    in_time = "in time", fits = "fits", tight = "tight", overruns = "overruns",

    // Does it arrive in time
    arrive_heading = "Does it arrive in time",
    arrive_none = "No copy is sent anywhere in this plan. A box that burns, floods or is stolen takes its snapshots with "
                  "it.",
    send_caption = "“{0}”, from {1} to {2} over {3}", figure = "Figure", half_below = "Usual", nine_below = "9 in 10 below",
    nineteen_below = "19 in 20 below", worst = "Worst",
    send_bytes = "Carried in a run", send_hours = "Time of a run", send_open = "Time the line is open for a run",
    send_late = "Runs that miss their window", send_rate = "Payload that the line gives",
    send_age = "Age of the newest complete copy", send_first = "First copy complete after",
    send_outage = "Longest time the line may be down", send_restore = "Getting everything back over the line",
    send_needed = "Line that would keep the windows", no_limit = "no limit",
    week_title = "The week of “{0}”",
    week_text = "When the line is open (shaded) and when the copy runs (bars), Monday to Sunday. Usually a run takes "
                "{0}; 19 in 20 take less than {1}.",

    // What we propose
    propose_heading = "What we propose",
    propose_none = "No offers were given, so none is compared here.",
    offers_caption = "Offers for {0}", offer = "Offer", lasts = "Lasts for {0}", level_then = "Level reached (likely)",
    cost = "Cost over {0}", price = "Price", standing = "What of it",
    recommended = "we propose this", outdone = "outdone by “{0}”", no_room = "does not go in", lasting = "lasts",
    not_lasting = "does not last",
    lasts_note = "“Lasts” is the share of futures in which the box stays below the level to act at until the end. Every "
                 "offer is compared on the same futures, as if it were ordered today.",
    order_caption = "When to order, and what happens if nothing is done", order_by = "Order by",
    nothing_done = "If nothing is done", order_late = "{0}, which has passed: now", order_not = "not needed",
    nothing_stays = "stays below the level to act at for {0}",
    nothing_level = "passes the level to act at in {0}, but is not full within {1}",
    nothing_full = "full in {0} in half of the futures; then nothing more is written there, and no copy arrives",
    nothing_full_now = "is full already", nothing_some = "full within {0} in {1}",

    // What this rests on
    rests_heading = "What this rests on",
    rests_caption = "Measured, given or assumed", dataset = "Dataset", size = "Size", growth = "Growth",
    daily_change = "Change in a day", compression = "Compression", measured_from = "{0} (measured)",
    given_as = "{0} (given)", assumed_as = "{0} (assumed)", a_year = "{0} a year",
    rests_note = "Measured: from a list of the snapshots that exist. Given: stated by whoever described the site. "
                 "Assumed: not stated, and taken as said below.",
    backtest_heading = "How earlier forecasts would have fared",
    backtest_line = "{0}: forecast {1} from {2} own past, the size was off by {3} in the middle case, and what came lay "
                    "inside the light band in {4} of cases (8 in 10 would be exact).",
    backtest_times_one = "once", backtest_times_more = "{0} times", its = "its",
    backtest_none = "None of these figures could be tried on the past, since no list of snapshots is long enough.",
    drivers_caption = "What moves the day of {0} most", input = "Input", at_low = "If low", at_high = "If high",
    spread_share = "Share of the spread",
    drivers_note = "Low and high: 1 in 10 is lower, 1 in 10 is higher. The time until the level to act at is said, all "
                   "else in the middle. To measure the first of these better would narrow the answer most.",
    assumed_heading = "What was taken where nothing was given",

    // Cautions
    cautions_heading = "Cautions",
    caution_backup = "A forecast is not a backup. A copy counts when a restore from it has been tried.",
    caution_offline = "Keep one copy offline or unchangeable: what can be written can be destroyed by mistake or malice.",
    caution_past = "The futures are drawn from what is known today. A new project, a merger or another way of working is "
                   "in none of them; make the forecast anew when one comes, and at least every few months.",
    caution_work = "Electrical and rack work belongs to qualified people and follows local codes.",

    // Appendix
    figures_heading = "Appendix A: all figures",
    figures_datasets = "Datasets: bytes written between two snapshots that far apart",
    figures_offers = "Offers: space and time", figures_costs = "Offers: cost", value = "Value",
    raw = "Formatted, copies of mirrors counted once",
    labels = "Labels of all drives",
    sectors = "Drives by their sectors",
    spares = "Spare drives",
    formatted = "Formatted",
    charged = "Less redundancy",
    reserve = "Kept back as a reserve",
    days_ceiling = "Days until the ceiling: 1 in 10 / half / 9 in 10 futures",
    days_full = "Days until full: 1 in 10 / half / 9 in 10 futures",
    share_ceiling = "Futures that come to the ceiling",
    share_full = "Futures that come to full",
    of_it_live = "Of it live",
    of_it_held = "Of it held by snapshots alone",
    full_then = "Full then",
    growth_a_day = "Growth a day",
    drives_bought = "Drives bought",
    runs_from = "Runs from",
    lasts_share = "Lasts",
    too_late = "Box over its ceiling before",
    days_ceiling_short = "Days until the ceiling: 1 in 10 / half / 9 in 10",
    times_bought = "Times bought",
    buying_again = "Buying again",
    energy = "Energy",
    in_all = "In all",
    tib_year = "For each usable TiB and year",
    ceiling = "Ceiling",
    live = "Live",
    hour_1 = "1 hour",
    day_1 = "1 day",
    days_7 = "7 days",
    days_30 = "30 days",
    used_then = "Used on {0}: 1 in 10 / half / 9 in 10 futures below",
    stored_byte = "A stored byte of “{0}” takes",
    bytes_taken = "{0} bytes",
    marks_come = "{0} of 20 come within {1}.",
    later = "later",
    figures_limits = "“{0}”: what the line gives, step by step", step = "Step", left_after = "Left after it",
    alone = "It alone would allow", binds = "{0} (binds)",
    figures_runs = "“{0}”: its runs; half / 9 in 10 / 19 in 20 are below", runs_of = "Runs", bytes_three = "Carried",
    hours_three = "Time", missing = "Miss their window", planned = "{0}, “{1}” {2}",
    behind = "Behind, {0} times a year: left, and time to catch up",
    figures_restore = "“{0}”: getting data back, a year ahead; half / 9 in 10 / 19 in 20 are below", what = "What",
    over_line = "Over the line", fetched = "By fetching the box", everything = "everything",
    figures_first = "“{0}”: two ways for its first copy", first_line = "Over the line, complete after",
    first_line_step = "Over the line, the runs that waited done after", first_copying = "By hand: copying beside the source",
    first_road = "By hand: on the road", first_hand = "By hand, complete and caught up after",
    first_even = "Size from which carrying is sooner",
    figures_curves = "Turnover: parts of each dataset", lifetimes = "Mean lifetime / bytes at any time that live so long",
    inputs_heading = "Appendix B: every input",
    inputs_lead = "As the site is described. What is not listed is at its default, and named above where it matters.",
    input_site = "Site", input_of = "{0} “{1}”",
    method_heading = "Appendix C: the method",
    made_with = "{0} futures, seed {1}, as of {2}, {3} ahead. The same description and seed give the same report.";

/// Monday first.
inline constexpr std::string_view weekdays[] = {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};

inline constexpr std::string_view method[] = {
    "Turnover. What is overwritten or deleted stays on a box while a snapshot holds it. The bytes of a dataset are "
    "taken to live for random times, a mixture of lifetimes (decaying exponentials) fitted to what is given for a "
    "day, a week and a month, or to what each gap of a list of snapshots freed and wrote. Where little is given, "
    "many mixtures that agree with it are drawn, so the band is wide.",
    "Growth. A stated rate with its stated spread; from a list, the history's own increments drawn again, one-off "
    "steps as steps, pulled towards a common rate where the history is short, and widened by its own past errors.",
    "Snapshots. A ladder keeps a snapshot of each hour, day, week or month for so long. A dead block is counted "
    "once, with the newest snapshot that holds it, on the calendar of the site's time zone.",
    "Boxes. Usable bytes come from the drives' labels by the industry's sector counts (IDEMA LBA1-03, SFF-8447), "
    "redundancy, parity padding by block size, and a reserve. Planned changes count from their day.",
    "Line. Payload is the least of: the line's rate less framing and tunnels, the receive window over the round "
    "trip, what packet loss leaves (RFC 9438, RFC 5348), the cipher and the disks. Runs are replayed on the calendar "
    "with the hours the line is open.",
    "Days. Each future is followed day by day; the day counted is the first on which it comes to the level, never "
    "where a band crosses a line. “1 in 10” is the tenth of all futures that come first; those that do not come within "
    "the horizon count as later.",
    "Offers. Each on the same futures from the day it would run; costs are price, energy, and buying again when its "
    "life is over, without interest. The cheapest that goes in and lasts with the asked confidence is proposed.",
};

}  // namespace sentences

}  // namespace ullage
