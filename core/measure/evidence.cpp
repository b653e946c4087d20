// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/evidence.h"

#include "core/units/quoted_text.h"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>
#include <optional>

namespace ullage {

namespace fs = std::filesystem;

namespace {

struct OpenFile {
    std::ifstream in;
    std::optional<std::size_t> size;  ///< empty: cannot be told
};

/// A regular file that is not larger than that; the error is a sentence.
tl::expected<OpenFile, std::string> open_file(const std::string& path, std::size_t limit_bytes) {
    std::error_code error;
    const auto status = fs::status(path, error);
    if (error || !fs::exists(status)) return tl::unexpected(std::string("there is no such file"));
    if (fs::is_directory(status)) return tl::unexpected(std::string("this is a folder; name a file"));
    if (!fs::is_regular_file(status)) return tl::unexpected(std::string("this is not a regular file; name one"));
    const auto size = fs::file_size(path, error);
    if (!error && size > limit_bytes)
        return tl::unexpected(
            fmt::format("the file has {} bytes; at most {} are read", size, limit_bytes));
    OpenFile file{std::ifstream(path, std::ios::binary), {}};
    if (!file.in) return tl::unexpected(std::string("the file cannot be opened for reading"));
    if (!error) file.size = static_cast<std::size_t>(size);
    return file;
}

/// What `parse` makes of a file that is read a piece at a time; it gets the file's size besides, 0 if that is unknown.
template <class Parse>
auto parsed_file(const std::string& path, std::size_t limit_bytes, Parse parse)
    -> tl::expected<typename decltype(parse(NextPiece(), std::size_t{}))::value_type, BadInput> {
    auto file = open_file(path, limit_bytes);
    if (!file) return tl::unexpected(BadInput{path, {{"", file.error()}}, true});
    constexpr std::size_t piece_bytes = std::size_t{1} << 20;
    std::string piece(piece_bytes, '\0');
    std::size_t so_far = 0;  // a file may grow while it is read
    auto parsed = parse([&]() -> std::string_view {
        const std::size_t wanted = std::min(piece_bytes, file->size.value_or(limit_bytes) - so_far);
        file->in.read(piece.data(), static_cast<std::streamsize>(wanted));
        const auto got = static_cast<std::size_t>(file->in.gcount());
        so_far += got;
        return std::string_view(piece).substr(0, got);
    }, file->size.value_or(0));
    if (file->in.bad()) return tl::unexpected(BadInput{path, {{"", "reading failed"}}, true});
    if (!parsed) return tl::unexpected(BadInput{path, std::move(parsed.error()), false});
    return *std::move(parsed);
}

}  // namespace

tl::expected<std::string, std::string> read_text_file(const std::string& path, std::size_t limit_bytes) {
    auto file = open_file(path, limit_bytes);
    if (!file) return tl::unexpected(file.error());
    std::string text(file->size.value_or(0), '\0');
    file->in.read(text.data(), static_cast<std::streamsize>(text.size()));
    if (file->in.bad()) return tl::unexpected(std::string("reading failed"));
    text.resize(static_cast<std::size_t>(file->in.gcount()));
    return text;
}

tl::expected<std::vector<Listing>, BadInput> read_listing_file(const std::string& path, const ListingOptions& options,
                                                               std::size_t limit_bytes) {
    return parsed_file(path, limit_bytes, [&](const NextPiece& next, std::size_t bytes) {
        return parse_listing(next, options, bytes);
    });
}

tl::expected<ListingLines, BadInput> read_listing_lines_of(const std::string& path,
                                                           const std::vector<std::string>& columns,
                                                           const std::stop_token& stop, std::size_t limit_bytes) {
    return parsed_file(path, limit_bytes, [&](const NextPiece& next, std::size_t bytes) {
        return read_listing_lines([&] { return stop.stop_requested() ? std::string_view() : next(); }, columns, bytes);
    });
}

tl::expected<ListingPreview, BadInput> preview_listing_of(const std::string& path, std::size_t rows) {
    return parsed_file(path, std::size_t{1} << 30, [&](const NextPiece& next, std::size_t) -> tl::expected<ListingPreview, Problems> {
        return preview_listing(next, rows);
    });
}

tl::expected<std::vector<UsagePoint>, BadInput> read_usage_file(const std::string& path, std::size_t limit_bytes) {
    return parsed_file(path, limit_bytes, [](const NextPiece& next, std::size_t) { return parse_usage(next); });
}

namespace {

/// Links followed; what cannot be told is left to reading, which cannot open it either.
bool leads_out_of(const std::string& folder, const fs::path& path) {
    std::error_code error;
    const fs::path base = fs::weakly_canonical(folder.empty() ? "." : folder, error);
    if (error) return false;
    const fs::path target = fs::weakly_canonical(path, error);
    if (error) return false;
    const fs::path way = target.lexically_relative(base);
    return way.empty() || *way.begin() == "..";
}

}  // namespace

tl::expected<Evidence, std::vector<BadInput>> load_evidence(const Site& site, const std::string& folder,
                                                            const MayLieOutside& outside) {
    Evidence evidence;
    std::vector<BadInput> bad;
    const auto path_of = [&](const std::string& name) { return (fs::path(folder) / name).string(); };
    const auto read = [&](const std::string& where, const std::string& name, auto read_file, auto& into) {
        if (name.empty() || into.count(name) > 0) return;
        const std::string path = path_of(name);
        if (leads_out_of(folder, path) && !(outside && outside(name))) {
            bad.push_back({"",
                           {{where, fmt::format("{} lies outside the site's folder; put it into that folder, or "
                                                "allow it with --allow-outside",
                                                in_quotes(name))}},
                           false});
            return;
        }
        auto measured = read_file(path);
        if (!measured)
            bad.push_back(measured.error());
        else
            into[name] = *std::move(measured);
    };
    for (std::size_t i = 0; i < site.datasets.size(); ++i) {
        const auto& dataset = site.datasets[i];
        if (dataset.turnover)
            read(fmt::format("/datasets/{}/turnover/listing", i), dataset.turnover->listing,
                 [&](const std::string& file) {
                     return read_listing_file(file, {dataset.turnover->listing_columns,
                                                     dataset.turnover->listing_skip_bad_lines});
                 },
                 evidence.listings);
        read(fmt::format("/datasets/{}/usage", i), dataset.usage,
             [](const std::string& file) { return read_usage_file(file); }, evidence.usages);
    }
    if (!bad.empty()) return tl::unexpected(bad);
    return evidence;
}

std::string folder_of(const std::string& site_path) {
    const auto parent = fs::path(site_path).parent_path();
    return parent.empty() ? "." : parent.string();
}

}  // namespace ullage
