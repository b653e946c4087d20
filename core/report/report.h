// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The report that a client reads: an answer as sections of plain values, ready to be laid out on paper
/// or in a browser. All words and all rounding of the report are made in this folder; whoever lays it out
/// adds none but the number of a page.
///
/// Model. The body is short, two pages for a site of one or two boxes: the answer, pictures, what to order,
/// what it rests on. The appendix has all the rest, so that another can check it. Every finding of the answer
/// stands in the report once, word for word: with a status in the body, a note in the appendix; tables say the
/// figures of the same outlook. So report, window and JSON cannot differ but in rounding. A term of the trade is
/// explained once, at the end of the first section of the body that uses it, or before those of the appendix
/// (terms.h). Pictures are named, not drawn: each has its words, for whoever cannot see it.
///
/// Assumptions: texts are plain and may hold any characters; who writes them into another format
/// escapes them. Sizes are decimal. The language is the answer's.
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

    ReportTable() = default;
    ReportTable(std::string words, std::vector<std::string> columns)
        : caption(std::move(words)), header(std::move(columns)) {}
    bool operator==(const ReportTable&) const = default;
};

struct ReportPicture {
    enum class Of { gauge, fill, week } of = Of::fill;
    std::size_t index = 0;  ///< of the outlook's boxes, or sends
    std::string title;      ///< what it is
    std::string text;       ///< what it shows, in words
    double share = 1;       ///< of the line that it takes, 0…1
    bool captioned = true;  ///< its words stand below it; else only where it cannot be seen
    bool operator==(const ReportPicture&) const = default;
};

/// Pictures beside each other; their shares make 1 at most.
struct ReportRow {
    std::vector<ReportPicture> pictures;
    bool operator==(const ReportRow&) const = default;
};

using ReportPart = std::variant<ReportHeading, ReportText, ReportList, ReportTable, ReportPicture, ReportRow>;

struct ReportSection {
    std::string heading;
    bool appendix = false;  ///< the first of them begins a page
    std::vector<ReportPart> parts;
    bool operator==(const ReportSection&) const = default;
};

struct ReportContent {
    std::string language = "en";                                    ///< ISO 639-1
    std::string title;                                              ///< with the site's name
    std::vector<std::pair<std::string, std::string>> particulars;   ///< client, author, date: caption and value
    std::string answer_heading;
    std::array<std::string, 3> answer;                              ///< a sentence each
    std::vector<ReportSection> sections;                            ///< the body, then the appendix
    std::string page_of;                                            ///< "Page {0} of {1}"
    std::string logo_text;                                          ///< what a logo is, in words
    bool operator==(const ReportContent&) const = default;
};

/// In the answer's language.
ReportContent report_of(const Answer&);

}  // namespace ullage
