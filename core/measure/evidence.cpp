// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/evidence.h"

#include <filesystem>
#include <fmt/format.h>
#include <fstream>

namespace ullage {

namespace fs = std::filesystem;

tl::expected<std::string, std::string> read_text_file(const std::string& path, std::size_t limit_bytes) {
    std::error_code error;
    const auto status = fs::status(path, error);
    if (error || !fs::exists(status)) return tl::unexpected(std::string("there is no such file"));
    if (!fs::is_regular_file(status)) return tl::unexpected(std::string("this is not a regular file"));
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

tl::expected<Evidence, std::vector<BadInput>> load_evidence(const Site& site, const std::string& folder) {
    Evidence evidence;
    std::vector<BadInput> bad;
    const auto path_of = [&](const std::string& name) { return (fs::path(folder) / name).string(); };
    const auto read = [&](const std::string& name, auto parse, auto& into) {
        if (name.empty() || into.count(name) > 0) return;
        const std::string path = path_of(name);
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
    for (const auto& dataset : site.datasets) {
        if (dataset.turnover)
            read(dataset.turnover->listing, [](const std::string& t) { return parse_listing(t); },
                 evidence.listings);
        read(dataset.usage, [](const std::string& t) { return parse_usage(t); }, evidence.usages);
    }
    if (!bad.empty()) return tl::unexpected(bad);
    return evidence;
}

std::string folder_of(const std::string& site_path) {
    const auto parent = fs::path(site_path).parent_path();
    return parent.empty() ? "." : parent.string();
}

}  // namespace ullage
