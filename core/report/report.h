// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The report that a client reads: an answer as sections of plain values, ready to be laid out on paper
/// or in a browser. All words and all rounding of the report are made in this folder; whoever lays it out
/// adds none but the number of a page.
///
/// Model. Every finding of the answer stands in the report once, in the section that it is about, word
/// for word; tables say the figures of the same outlook. So report, window and JSON cannot differ but in
/// rounding. A term of the trade is explained once, right after the first paragraph, list or table that
/// uses it (terms.h). Pictures are named, not drawn: each has its words, for whoever cannot see it.
///
/// Assumptions: texts are plain and may hold any characters; who writes them into another format
/// escapes them. Sizes are decimal.
/// Ignored: languages other than English. Every sentence of the report stands in sentences.h; those of
/// the findings come from core/findings.
/// Invariants: a pure function, the same answer gives the same values; the answer is three sentences; the
/// rows of a table are as long as its header. No source: wording.

#include "core/findings/findings.h"

#include <array>
#include <cstddef>
#include <string>
#include <variant>
#include <vector>

namespace ullage {

/// A heading within a section.
struct ReportHeading {
    std::string text;
    bool operator==(const ReportHeading&) const = default;
};

struct ReportText {
    enum class As { plain, important, explained } as = As::plain;  ///< explained: what a term means
    std::string text;
    bool operator==(const ReportText&) const = default;
};

struct ReportItem {
    Level level = Level::note;
    std::string mark;  ///< the level in a word; empty for a note
    std::string text;
    bool operator==(const ReportItem&) const = default;
};

struct ReportList {
    std::vector<ReportItem> items;
    bool operator==(const ReportList&) const = default;
};

struct ReportTable {
    std::string caption;
    std::vector<std::string> header;
    std::vector<std::vector<std::string>> rows;  ///< the first cell of each names it
    int stressed = -1;                           ///< row that matters most; −1: none
    bool operator==(const ReportTable&) const = default;
};

struct ReportPicture {
    enum class Of { gauge, fill, week } of = Of::fill;
    std::size_t index = 0;  ///< of the outlook's boxes, or sends
    std::string title;      ///< what it is
    std::string text;       ///< what it shows, in words
    bool operator==(const ReportPicture&) const = default;
};

using ReportPart = std::variant<ReportHeading, ReportText, ReportList, ReportTable, ReportPicture>;

struct ReportSection {
    std::string heading;
    std::vector<ReportPart> parts;
    bool operator==(const ReportSection&) const = default;
};

struct ReportContent {
    std::string language = "en";                                    ///< ISO 639-1
    std::string title;                                              ///< with the site's name
    std::vector<std::pair<std::string, std::string>> particulars;   ///< client, author, date: caption and value
    std::string answer_heading;
    std::array<std::string, 3> answer;                              ///< a sentence each
    std::vector<ReportSection> sections;                            ///< the first goes with the answer
    std::string page_of;                                            ///< "Page {0} of {1}"
    std::string logo_text;                                          ///< what a logo is, in words
    bool operator==(const ReportContent&) const = default;
};

ReportContent report_of(const Answer&);

}  // namespace ullage
