// SPDX-License-Identifier: GPL-3.0-or-later
#include "report_testing.h"

#include "core/report/html.h"

namespace ullage {
namespace {

using namespace testing;

TEST(ReportHtml, NamesAreEscapedWhereverTheyStand) {
    Answer a = answer();
    const std::string evil = "<script>alert('x' & \"y\")</script>";
    a.site.prepared_for = a.site.prepared_by = a.outlook.site = evil;
    a.site.datasets[0].name = a.outlook.datasets[0].name = evil;
    a.site.boxes[1].name = a.outlook.boxes[0].name = evil;
    a.site.sends[0].name = a.outlook.sends[0].name = evil;
    HtmlOptions options;
    options.draw = [](const ReportPicture&) { return SvgDrawing{100, 50, "<rect width=\"1\" height=\"1\"/>"}; };
    const std::string html = report_html(report_of(with_findings(a)), options);
    EXPECT_EQ(html.find("<script"), std::string::npos);
    EXPECT_NE(html.find("&lt;script&gt;alert(&#39;x&#39; &amp; &quot;y&quot;)&lt;/script&gt;"), std::string::npos);
}

TEST(ReportHtml, ControlCharactersAreLeftOut) {
    EXPECT_EQ(escaped_html(std::string("a\0b\x1b[c\nd\x7f", 9)), "ab[c d");
}

TEST(ReportHtml, NeedsNothingFromElsewhere) {
    const std::string html = report_html(report_of(answer()), {});
    for (const char* part : {"<script", "<link", "url(", "@import", " href=", " src=\"http"})
        EXPECT_EQ(html.find(part), std::string::npos) << part;
}

TEST(ReportHtml, APictureHasItsWordsTwiceForEveryReader) {
    ReportContent r;
    r.sections = {{"One", false, {ReportPicture{ReportPicture::Of::fill, 0, "How full attic gets", "Fuller."}}}};
    HtmlOptions options;
    options.draw = [](const ReportPicture&) { return SvgDrawing{640, 320.4, "<path d=\"M0 0\"/>"}; };
    const std::string html = report_html(r, options);
    for (const char* part : {"role=\"img\" aria-label=\"How full attic gets. Fuller.\" viewBox=\"0 0 640 320\"",
                             "<title>How full attic gets</title>", "<desc>Fuller.</desc>",
                             "<figcaption>How full attic gets. Fuller.</figcaption>", "<path d=\"M0 0\"/>"})
        EXPECT_NE(html.find(part), std::string::npos) << part << "\n" << html;
    EXPECT_EQ(report_html(r, {}).find("<svg"), std::string::npos) << "without a drawing library";
}

TEST(ReportHtml, TheSameContentGivesTheSameBytes) {
    EXPECT_EQ(report_html(report_of(answer()), {}), report_html(report_of(answer()), {}));
}

}  // namespace
}  // namespace ullage
