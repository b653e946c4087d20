// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/method.h"

namespace ullage::report {

std::vector<std::string> method_in_words(const Wording& w) {
    return {
        w.say("Turnover. What is overwritten or deleted stays on a box while a snapshot holds it. The bytes "
              "of a dataset are taken to live for random times, a mixture of lifetimes (decaying "
              "exponentials) fitted to what is given for a day, a week and a month, or to what each gap of a "
              "list of snapshots freed and wrote. Where little is given, many mixtures that agree with it are "
              "drawn, so the band is wide."),
        w.say("Growth. A stated rate with its stated spread; from a list, the history's own increments drawn "
              "again, one-off steps as steps, pulled towards a common rate where the history is short, and "
              "widened by its own past errors."),
        w.say("Snapshots. A ladder keeps a snapshot of each hour, day, week or month for so long. A dead "
              "block is counted once, with the newest snapshot that holds it, on the calendar of the site's "
              "time zone."),
        w.say("Boxes. Usable bytes come from the drives' labels by the industry's sector counts (IDEMA "
              "LBA1-03, SFF-8447), redundancy, parity padding by block size, and a reserve. Planned changes "
              "count from their day."),
        w.say("Line. Payload is the least of: the line's rate less framing and tunnels, the receive window "
              "over the round trip, what packet loss leaves (RFC 9438, RFC 5348), the cipher and the disks. "
              "Runs are replayed on the calendar with the hours the line is open."),
        w.say("Days. Each future is followed day by day; the day counted is the first on which it comes to "
              "the level, never where a band crosses a line. “1 in 10” is the tenth of all futures that come "
              "first; those that do not come within the horizon count as later."),
        w.say("Offers. Each on the same futures from the day it would run; costs are price, energy, and "
              "buying again when its life is over, without interest. The cheapest that goes in and lasts with "
              "the asked confidence is proposed."),
    };
}

}  // namespace ullage::report
