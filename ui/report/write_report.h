// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A report's files as bytes. Needs a QApplication but no display.

#include "ui/report/report_pages.h"

#include <string>
#include <tl/expected.hpp>

namespace ullage {

/// One HTML file with its pictures, and the logo, in it.
std::string html_of(const Answer& answer, const ReportContent& content, const QImage& logo);

/// Of a PNG or JPEG, made smaller where it is larger than paper needs; null for no bytes. The error
/// is a sentence.
tl::expected<QImage, std::string> read_logo(const QByteArray& bytes);

}  // namespace ullage
