// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Outlook → sentences a client understands, the outlook's JSON, and tables for the command line.

#include "core/findings/words.h"
#include "core/outlook/outlook.h"
#include "core/units/quantity_text.h"
#include "core/words/wording.h"

#include <string>
#include <vector>

namespace ullage {

enum class Level { fits, tight, overruns, note };
std::string to_string(Level);  ///< "fits", "tight", "overruns", "note"

struct Finding {
    Level level = Level::note;
    std::string about;   ///< JSON pointer of the item: "/boxes/1", "/sends/0", "/datasets/2", "" = the site
    std::string text;
    bool operator==(const Finding&) const = default;
};

/// What the window, the command line and the report all show: one outlook and its sentences.
struct Answer {
    Site site;
    Outlook outlook;
    std::vector<Finding> findings;  ///< overruns first, then tight, fits, notes
    Language language = Language::english;  ///< of the findings, and of what is made of this answer
    bool operator==(const Answer&) const = default;
};

std::vector<Finding> findings(const Site&, const Outlook&, Prefixes = Prefixes::decimal,
                              Language = Language::english);
/// The same answer with its findings in that language.
Answer in_language(Answer, Language, Prefixes = Prefixes::decimal);

/// The last safe day to order an offer: the day on which 1 in 10 futures has come to the ceiling of its box as
/// it is, less the offer's lead time, or the box's; as_of less it where the box is over its ceiling. Empty without a
/// lead time, without such a day, or where the box is not forecast.
std::optional<Day> order_by(const Answer&, const OfferOutlook&);

/// compute, then findings, in English.
tl::expected<Answer, ComputeError> answer(const Site&, const Evidence&, const Settings&,
                                          const Progress& = {});

/// The status of a box in one word, by the rule stated in findings.cpp, and of a send.
Level status_of(const BoxOutlook&, double horizon_days);
Level status_of(const SendOutlook&, double confidence);

/// The level in a word of that language: "fits", "knapp".
std::string level_word(Level, const Wording&);

/// The contract's outlook JSON: its keys are English, its sentences in the answer's language. Deterministic: the
/// same answer gives the same bytes.
std::string outlook_json(const Answer&);
/// Rows of box, date, used p10/p50/p90, live, held, fill; a header row; comma separated.
std::string outlook_csv(const Answer&, bool with_header = true);
/// Readable tables of boxes, sends, datasets, then the findings, for a terminal of `width` columns.
std::string outlook_tables(const Answer&, int width = 100);

}  // namespace ullage
