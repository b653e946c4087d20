// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/html.h"

#include <fmt/format.h>

namespace ullage {

namespace {

// Greys and one blue: text at 4.5 : 1 or more, marks told apart by words and weight, not by colour.
constexpr std::string_view style = R"(
html { font-family: "DejaVu Sans", Verdana, Arial, sans-serif; line-height: 1.5; color: #1c1c1c; background: #fff; }
body { max-width: 52rem; margin: 0 auto; padding: 1.25rem; overflow-wrap: anywhere; }
h1 { font-size: 1.6rem; line-height: 1.25; margin: 0 0 .75rem; }
h2 { font-size: 1.25rem; margin: 2.25rem 0 .5rem; padding-top: .5rem; border-top: 2px solid #1c1c1c; }
h3 { font-size: 1.05rem; margin: 1.5rem 0 .4rem; }
p { margin: .6rem 0; }
.logo { max-width: 12rem; max-height: 5rem; margin-bottom: 1rem; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .1rem 1rem; margin: 0 0 1.5rem; }
dt { color: #595959; } dd { margin: 0; }
.answer { border-left: 5px solid #1c1c1c; padding: .25rem 0 .25rem 1rem; }
.answer h2 { border: 0; margin: 0; padding: 0; }
.answer p { font-size: 1.08rem; }
.meaning { color: #595959; font-size: .85rem; margin: .8rem 0; padding-left: .75rem; border-left: 2px solid #bdbdbd; }
.findings { padding-left: 1.2rem; } .findings li { margin: .35rem 0; }
table { border-collapse: collapse; width: 100%; font-size: .84rem; margin: 1rem 0; overflow-wrap: break-word; }
caption { text-align: left; font-weight: bold; padding: .3rem 0; }
th, td { text-align: left; vertical-align: top; padding: .3rem .6rem .3rem 0; border-bottom: 1px solid #bdbdbd; }
thead th { border-bottom: 2px solid #1c1c1c; vertical-align: bottom; }
tbody th { font-weight: normal; }
.stressed th, .stressed td { font-weight: bold; }
.pictures { display: flex; flex-wrap: wrap; gap: 0 1rem; align-items: center; }
figure { margin: .75rem 0; } .pictures figure { min-width: 17rem; }
figcaption { color: #595959; font-size: .85rem; }
svg { width: 100%; height: auto; display: block; }
.wide { overflow-x: auto; } .wide svg { min-width: 34rem; }
.appendix { font-size: .92rem; }
@media (max-width: 600px) {
  body { padding: .75rem; }
  table, caption, tbody, tr, tbody th, td { display: block; }
  thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  tr { border-bottom: 1px solid #8a8a8a; padding: .4rem 0; }
  tbody th { font-weight: bold; border: 0; padding: 0; }
  td { display: flex; gap: .6rem; border: 0; padding: .1rem 0; }
  td::before { content: attr(data-label); flex: 0 0 42%; color: #595959; font-weight: normal; }
  td:empty { display: none; }
  .pictures { display: block; }
}
@media print {
  body { max-width: none; padding: 0; font-size: 9.5pt; }
  h2, h3, caption { break-after: avoid; } thead { display: table-header-group; }
  tr, figure, li, .answer { break-inside: avoid; } tbody tr:first-child { break-before: avoid; }
  section:not(.appendix) + .appendix { break-before: page; }
  .wide { overflow: visible; } .wide svg, .pictures figure { min-width: 0; } .pictures { flex-wrap: nowrap; }
}
)";

class HtmlWriter {
public:
    HtmlWriter(const ReportContent& content, const HtmlOptions& options) : r_(content), options_(options) {}

    std::string write() {
        out_ = fmt::format("<!DOCTYPE html>\n<html lang=\"{0}\" xmlns=\"http://www.w3.org/1999/xhtml\">\n<head>\n"
                           "<meta charset=\"utf-8\" />\n"
                           "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\" />\n"
                           "<title>{1}</title>\n<style>{2}</style>\n</head>\n<body>\n<header>\n",
                           escaped_html(r_.language), escaped_html(r_.title), style);
        if (!options_.logo_png_base64.empty())
            out_ += fmt::format("<img class=\"logo\" alt=\"{}\" src=\"data:image/png;base64,{}\" />\n",
                                escaped_html(r_.logo_text), options_.logo_png_base64);
        element("h1", r_.title);
        out_ += "<dl>\n";
        for (const auto& [name, value] : r_.particulars) {
            element("dt", name);
            element("dd", value);
        }
        out_ += "</dl>\n</header>\n<main>\n<section class=\"answer\">\n";
        element("h2", r_.answer_heading);
        for (const auto& sentence : r_.answer) element("p", sentence);
        out_ += "</section>\n";
        for (const auto& section : r_.sections) {
            out_ += section.appendix ? "<section class=\"appendix\">\n" : "<section>\n";
            element("h2", section.heading);
            for (const auto& part : section.parts) std::visit([this](const auto& p) { put(p); }, part);
            out_ += "</section>\n";
        }
        return out_ + "</main>\n</body>\n</html>\n";
    }

private:
    void element(const char* tag, const std::string& text, const std::string& attributes = "") {
        out_ += fmt::format("<{}{}>{}</{}>\n", tag, attributes, escaped_html(text), tag);
    }

    void put(const ReportHeading& heading) { element("h3", heading.text); }

    void put(const ReportText& text) {
        element("p", text.text, text.as == ReportText::As::explained ? " class=\"meaning\"" : "");
    }

    void put(const ReportList& list) {
        out_ += "<ul class=\"findings\">\n";
        for (const auto& item : list.items)
            out_ += fmt::format("<li>{}{}</li>\n",
                                item.mark.empty() ? "" : fmt::format("<strong>{}:</strong> ", escaped_html(item.mark)),
                                escaped_html(item.text));
        out_ += "</ul>\n";
    }

    void put(const ReportTable& table) {
        out_ += "<table>\n";
        if (!table.caption.empty()) element("caption", table.caption);
        out_ += "<thead>\n<tr>\n";
        for (const auto& cell : table.header) element("th", cell, " scope=\"col\"");
        out_ += "</tr>\n</thead>\n<tbody>\n";
        for (std::size_t r = 0; r < table.rows.size(); ++r) {
            out_ += static_cast<int>(r) == table.stressed ? "<tr class=\"stressed\">\n" : "<tr>\n";
            for (std::size_t c = 0; c < table.rows[r].size(); ++c) {
                if (c == 0) element("th", table.rows[r][c], " scope=\"row\"");
                else element("td", table.rows[r][c], " data-label=\"" + escaped_html(table.header[c]) + "\"");
            }
            out_ += "</tr>\n";
        }
        out_ += "</tbody>\n</table>\n";
    }

    void put(const ReportRow& row) {
        out_ += "<div class=\"pictures\">\n";
        for (const auto& picture : row.pictures)
            figure(picture, fmt::format(" style=\"flex: {:.0f} 1 0\"", 100 * picture.share));
        out_ += "</div>\n";
    }

    void put(const ReportPicture& picture) { figure(picture, " class=\"wide\""); }

    void figure(const ReportPicture& picture, const std::string& attributes) {
        const SvgDrawing drawing = options_.draw ? options_.draw(picture) : SvgDrawing{};
        out_ += "<figure" + attributes + ">\n";
        if (!drawing.elements.empty())
            out_ += fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" "
                                "aria-label=\"{2}. {3}\" viewBox=\"0 0 {0:.0f} {1:.0f}\">\n"
                                "<title>{2}</title>\n<desc>{3}</desc>\n{4}\n</svg>\n",
                                drawing.width, drawing.height, escaped_html(picture.title),
                                escaped_html(picture.text), drawing.elements);
        if (picture.captioned || drawing.elements.empty()) element("figcaption", picture.title + ". " + picture.text);
        out_ += "</figure>\n";
    }

    const ReportContent& r_;
    const HtmlOptions& options_;
    std::string out_;
};

}  // namespace

std::string escaped_html(std::string_view text) {
    std::string out;
    for (const char c : text) {
        switch (c) {
            case '&': out += "&amp;"; break;
            case '<': out += "&lt;"; break;
            case '>': out += "&gt;"; break;
            case '"': out += "&quot;"; break;
            case '\'': out += "&#39;"; break;
            default:
                if (static_cast<unsigned char>(c) >= 0x20 && c != 0x7f) out += c;
                else if (c == '\n' || c == '\t') out += ' ';
        }
    }
    return out;
}

std::string report_html(const ReportContent& content, const HtmlOptions& options) {
    return HtmlWriter(content, options).write();
}

}  // namespace ullage
