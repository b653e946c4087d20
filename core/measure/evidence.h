// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Reads the measured files a site names. The only part of this module that touches files.

#include "core/measure/listing.h"
#include "core/site/site.h"

#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

/// The text of a regular file of at most `limit_bytes`; the error is a sentence.
tl::expected<std::string, std::string> read_text_file(const std::string& path,
                                                      std::size_t limit_bytes = std::size_t{1} << 30);

/// Every listing and usage history of the site, once each; paths are relative to `folder`.
tl::expected<Evidence, std::vector<BadInput>> load_evidence(const Site& site, const std::string& folder);

/// The folder of a site's file: what its listing paths are relative to ("." for a bare name).
std::string folder_of(const std::string& site_path);

}  // namespace ullage
