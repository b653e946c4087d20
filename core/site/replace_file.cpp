// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/replace_file.h"

#include "core/site/file_handle.h"

#include <fcntl.h>
#include <fmt/format.h>

#include <array>
#include <cerrno>
#include <climits>
#include <cstdio>
#include <utility>

namespace ullage {
namespace {

/// The file a chain of symbolic links ends at, which need not exist.
tl::expected<std::string, std::string> link_target(std::string path) {
    constexpr int most_links = 40;
    for (int i = 0; i < most_links; ++i) {
        struct stat status {};
        if (::lstat(path.c_str(), &status) != 0 || !S_ISLNK(status.st_mode)) return path;
        std::array<char, PATH_MAX> buffer{};
        const ssize_t length = ::readlink(path.c_str(), buffer.data(), buffer.size());
        if (length <= 0 || static_cast<std::size_t>(length) >= buffer.size()) {
            return tl::make_unexpected(fmt::format("{}: a link that cannot be followed", path));
        }
        const std::string target(buffer.data(), static_cast<std::size_t>(length));
        const std::size_t slash = path.rfind('/');
        path = target.front() == '/' || slash == std::string::npos
                   ? target
                   : path.substr(0, slash + 1) + target;
    }
    return tl::make_unexpected(
        fmt::format("{}: more than {} links in a row; name the file itself", path, most_links));
}

bool write_all(int file, const std::function<std::string_view()>& next_piece) {
    for (std::string_view text = next_piece(); !text.empty(); text = next_piece()) {
        while (!text.empty()) {
            const ssize_t written = ::write(file, text.data(), text.size());
            if (written < 0) {
                if (errno == EINTR) continue;
                return false;
            }
            text.remove_prefix(static_cast<std::size_t>(written));
        }
    }
    return true;
}

/// Removes the unfinished file unless it was renamed.
struct Unfinished {
    std::string path;
    bool done = false;
    ~Unfinished() {
        if (!done && !path.empty()) ::unlink(path.c_str());
    }
};

}  // namespace

tl::expected<void, std::string> replace_file(const std::string& path, std::string_view text) {
    return replace_file(path, [text]() mutable { return std::exchange(text, std::string_view()); });
}

tl::expected<void, std::string> replace_file(const std::string& path,
                                             const std::function<std::string_view()>& next_piece) {
    const auto target = link_target(path);
    if (!target) return tl::make_unexpected(target.error());
    const auto fail = [](std::string what) { return tl::make_unexpected(std::move(what)); };
    struct stat old {};
    const bool replaces = ::stat(target->c_str(), &old) == 0;
    if (replaces && !S_ISREG(old.st_mode)) return fail(not_regular(old.st_mode));
    if (replaces && ::access(target->c_str(), W_OK) != 0) {
        return fail(fmt::format("may not be written: {}", system_says(errno)));
    }
    const char* const as_it_was = replaces ? "; the old file is as it was" : "";
    const std::size_t slash = target->rfind('/');
    const std::string folder = slash == std::string::npos ? "./" : target->substr(0, slash + 1);

    constexpr int tries = 100;
    // A file that replaces one is the user's alone until it has the other's permissions; a new one
    // is what the user's mask leaves.
    const mode_t mode = replaces ? 0600 : 0666;
    Unfinished unfinished;
    int number = -1;
    for (int i = 0; i < tries && number < 0; ++i) {
        const std::string name = fmt::format("{}.ullage-{}-{}.tmp", folder, ::getpid(), i);
        number = ::open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, mode);
        if (number >= 0) {
            unfinished.path = name;
        } else if (errno != EEXIST) {
            break;
        }
    }
    FileHandle file(number);
    if (!file.open()) {
        return fail(fmt::format("cannot make a file in its folder: {}", system_says(errno)));
    }
    if (replaces) {
        // Another owner's group can be kept only by its members; the permissions always can.
        if (old.st_gid != ::getegid() &&
            ::fchown(file.number(), static_cast<uid_t>(-1), old.st_gid) != 0) {
            errno = 0;
        }
        if (::fchmod(file.number(), old.st_mode & 07777U) != 0) {
            return fail(fmt::format("cannot keep its permissions: {}", system_says(errno)));
        }
    }
    if (!write_all(file.number(), next_piece) || ::fsync(file.number()) != 0) {
        return fail(fmt::format("cannot be written: {}{}", system_says(errno), as_it_was));
    }
    if (!file.close()) {
        return fail(fmt::format("cannot be written: {}{}", system_says(errno), as_it_was));
    }
    if (::rename(unfinished.path.c_str(), target->c_str()) != 0) {
        return fail(fmt::format("cannot be replaced: {}{}", system_says(errno), as_it_was));
    }
    unfinished.done = true;
    // The name must outlast a power cut too; a folder that cannot be flushed (EINVAL on some file
    // systems) is no failure of ours, the new file is in place.
    FileHandle directory(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (directory.open() && ::fsync(directory.number()) != 0 && errno == EIO) {
        return fail("is written, but the folder could not be flushed: input/output error");
    }
    return {};
}

}  // namespace ullage
