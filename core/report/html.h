// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The report as one HTML file that needs nothing else: no script, no address, its style and pictures inside.
/// Well-formed XML too, so that any reader can check it. Every text is escaped. Same content and drawings,
/// same bytes.

#include "core/report/report.h"

#include <functional>
#include <string>

namespace ullage {

/// A picture's marks, as SVG elements in a field of that size.
struct SvgDrawing {
    double width = 0, height = 0;
    std::string elements;  ///< well-formed; goes into the file as it is
};

struct HtmlOptions {
    std::function<SvgDrawing(const ReportPicture&)> draw;  ///< empty: pictures are their words
    std::string logo_png_base64;                           ///< empty: no logo
};

std::string report_html(const ReportContent&, const HtmlOptions&);

/// For text and attributes: & < > " ' escaped; control characters, which no HTML may hold, left out.
std::string escaped_html(std::string_view text);

}  // namespace ullage
