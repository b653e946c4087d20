// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Writing a file so that a failure leaves the old one: a new file beside it, flushed, then renamed. A
/// symbolic link stays one, and what it leads to is written. Permissions are kept.

#include <functional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace ullage {

/// The error is a sentence without the file's name. What is no regular file is not replaced.
tl::expected<void, std::string> replace_file(const std::string& path, std::string_view text);

/// The same of a text that comes in pieces; an empty one ends it. Each is read before the next is asked for.
tl::expected<void, std::string> replace_file(const std::string& path,
                                             const std::function<std::string_view()>& next_piece);

}  // namespace ullage
