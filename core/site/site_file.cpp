// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/file_handle.h"
#include "core/site/json_tree.h"
#include "core/site/replace_file.h"
#include "core/site/site_json.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <fmt/format.h>

namespace ullage {
namespace {

BadInput unreadable(const std::string& path, std::string what) {
    return BadInput{path, {{"", std::move(what)}}, true};
}

}  // namespace

tl::expected<Site, BadInput> read_site_file(const std::string& path) {
    // Not blocking, so that a pipe without a writer cannot hold the program up.
    FileHandle file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC));
    if (!file.open()) {
        return tl::make_unexpected(
            unreadable(path, fmt::format("cannot be opened: {}", system_says(errno))));
    }
    struct stat status {};
    if (::fstat(file.number(), &status) != 0) {
        return tl::make_unexpected(
            unreadable(path, fmt::format("cannot be read: {}", system_says(errno))));
    }
    if (!S_ISREG(status.st_mode)) {
        return tl::make_unexpected(
            unreadable(path, not_regular(status.st_mode) + "; name a site file"));
    }
    std::string text;
    std::array<char, 65536> buffer{};
    // One byte past the limit is enough for parse_site to refuse it.
    while (text.size() <= most_json_bytes) {
        const ssize_t got = ::read(file.number(), buffer.data(), buffer.size());
        if (got == 0) break;
        if (got < 0) {
            if (errno == EINTR) continue;
            return tl::make_unexpected(
                unreadable(path, fmt::format("cannot be read: {}", system_says(errno))));
        }
        text.append(buffer.data(), static_cast<std::size_t>(got));
    }
    auto site = parse_site(text);
    if (!site) return tl::make_unexpected(BadInput{path, std::move(site.error()), false});
    return std::move(*site);
}

tl::expected<void, std::string> write_site_file(const std::string& path, const Site& site) {
    if (path.empty()) return tl::make_unexpected(std::string("a file name is expected"));
    const auto written = replace_file(path, write_site(site));
    if (!written) return tl::make_unexpected(fmt::format("{}: {}", path, written.error()));
    return {};
}

}  // namespace ullage
