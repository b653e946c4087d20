// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A report as one text, and answers of the cases that a client may meet. All data are invented.

#include "core/report/report.h"

#include "../findings/findings_testing.h"

#include <string>

namespace ullage::testing {

struct TextOfPart {
    std::string operator()(const ReportHeading& h) const { return "### " + h.text + "\n"; }
    std::string operator()(const ReportText& t) const {
        return (t.as == ReportText::As::explained ? "explained: " : "") + t.text + "\n";
    }
    std::string operator()(const ReportList& l) const {
        std::string text;
        for (const auto& item : l.items) text += "* " + item.text + "\n";
        return text;
    }
    std::string operator()(const ReportTable& t) const {
        std::string text = "table: " + t.caption + "\n";
        const auto row = [&](const std::vector<std::string>& cells) {
            for (const auto& cell : cells) text += "| " + cell + " ";
            text += "|\n";
        };
        row(t.header);
        for (const auto& cells : t.rows) row(cells);
        return text;
    }
    std::string operator()(const ReportPicture& p) const { return "picture: " + p.title + ". " + p.text + "\n"; }
    std::string operator()(const ReportRow& row) const {
        std::string text;
        for (const auto& picture : row.pictures) text += (*this)(picture);
        return text;
    }
};

inline std::string text_of_section(const ReportSection& s) {
    std::string text = "## " + s.heading + "\n";
    for (const auto& part : s.parts) text += std::visit(TextOfPart{}, part);
    return text;
}

inline std::string text_of_report(const ReportContent& r) {
    std::string text = r.title + "\n";
    for (const auto& [name, value] : r.particulars) text += name + ": " + value + "\n";
    for (const auto& sentence : r.answer) text += sentence + "\n";
    for (const auto& section : r.sections) text += text_of_section(section);
    return text;
}

inline std::string section_of(const ReportContent& r, const std::string& heading) {
    for (const auto& s : r.sections)
        if (s.heading == heading) return text_of_section(s);
    return {};
}

inline Answer with_findings(Answer a) {
    a.findings = findings(a.site, a.outlook);
    return a;
}

}  // namespace ullage::testing
