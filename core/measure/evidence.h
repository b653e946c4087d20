// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Reads the measured files a site names. The only part of this module that touches files.

#include "core/measure/listing.h"
#include "core/measure/listing_columns.h"
#include "core/site/site.h"

#include <functional>
#include <stop_token>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

/// The text of a regular file of at most `limit_bytes`; the error is a sentence.
tl::expected<std::string, std::string> read_text_file(const std::string& path,
                                                      std::size_t limit_bytes = std::size_t{1} << 30);

/// A listing, a usage history, read from a regular file a piece at a time.
tl::expected<std::vector<Listing>, BadInput> read_listing_file(const std::string& path, const ListingOptions& = {},
                                                               std::size_t limit_bytes = std::size_t{1} << 30);
/// As read_listing_lines; ends soon, with what it has, where `stop` is asked for.
tl::expected<ListingLines, BadInput> read_listing_lines_of(const std::string& path,
                                                           const std::vector<std::string>& columns,
                                                           const std::stop_token& stop = {},
                                                           std::size_t limit_bytes = std::size_t{1} << 30);
tl::expected<ListingPreview, BadInput> preview_listing_of(const std::string& path, std::size_t rows);
tl::expected<std::vector<UsagePoint>, BadInput> read_usage_file(const std::string& path,
                                                                std::size_t limit_bytes = std::size_t{1} << 30);

/// Whether a file that the site names may lie outside the site's folder; empty: none may.
using MayLieOutside = std::function<bool(const std::string& name)>;

/// Every listing and usage history of the site, once each; paths are relative to `folder`. A site may
/// come from someone else, so a path that leads out of the folder, by its text or by a link, is not
/// opened: the problem then has no file and the pointer of the member that names it.
tl::expected<Evidence, std::vector<BadInput>> load_evidence(const Site& site, const std::string& folder,
                                                            const MayLieOutside& outside = {});

/// The folder of a site's file: what its listing paths are relative to ("." for a bare name).
std::string folder_of(const std::string& site_path);

}  // namespace ullage
