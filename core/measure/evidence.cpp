// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/evidence.h"

#include "core/units/quoted_text.h"

#include <filesystem>
#include <fmt/format.h>
#include <fstream>

namespace ullage {

namespace fs = std::filesystem;

tl::expected<std::string, std::string> read_text_file(const std::string& path, std::size_t limit_bytes) {
    std::error_code error;
    const auto status = fs::status(path, error);
    if (error || !fs::exists(status)) return tl::unexpected(std::string("there is no such file"));
    if (fs::is_directory(status)) return tl::unexpected(std::string("this is a folder; name a file"));
    if (!fs::is_regular_file(status)) return tl::unexpected(std::string("this is not a regular file; name one"));
    const auto size = fs::file_size(path, error);
    if (!error && size > limit_bytes)
        return tl::unexpected(
            fmt::format("the file has {} bytes; at most {} are read", size, limit_bytes));
    std::ifstream in(path, std::ios::binary);
    if (!in) return tl::unexpected(std::string("the file cannot be opened for reading"));
    std::string text(error ? 0 : static_cast<std::size_t>(size), '\0');
    in.read(text.data(), static_cast<std::streamsize>(text.size()));
    if (in.bad()) return tl::unexpected(std::string("reading failed"));
    text.resize(static_cast<std::size_t>(in.gcount()));
    return text;
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
    const auto read = [&](const std::string& where, const std::string& name, auto parse, auto& into) {
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
        const auto text = read_text_file(path);
        if (!text) {
            bad.push_back({path, {{"", text.error()}}, true});
            return;
        }
        auto parsed = parse(*text);
        if (!parsed)
            bad.push_back({path, parsed.error(), false});
        else
            into[name] = *std::move(parsed);
    };
    for (std::size_t i = 0; i < site.datasets.size(); ++i) {
        const auto& dataset = site.datasets[i];
        if (dataset.turnover)
            read(fmt::format("/datasets/{}/turnover/listing", i), dataset.turnover->listing,
                 [](const std::string& t) { return parse_listing(t); }, evidence.listings);
        read(fmt::format("/datasets/{}/usage", i), dataset.usage,
             [](const std::string& t) { return parse_usage(t); }, evidence.usages);
    }
    if (!bad.empty()) return tl::unexpected(bad);
    return evidence;
}

std::string folder_of(const std::string& site_path) {
    const auto parent = fs::path(site_path).parent_path();
    return parent.empty() ? "." : parent.string();
}

}  // namespace ullage
