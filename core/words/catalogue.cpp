// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/words/catalogue.h"

#include <boost/locale/gnu_gettext.hpp>
#include <boost/locale/message.hpp>

#include <algorithm>
#include <locale>
#include <memory>

namespace ullage {

/// The compiled catalogue (msgfmt), made at build time from resources/translations/de.po.
extern const unsigned char german_catalogue[];
extern const unsigned long german_catalogue_bytes;

namespace {

namespace bl = boost::locale;
using Messages = bl::message_format<char>;

/// A locale of its own that holds nothing but the catalogue: the process's is not touched.
class Catalogue {
public:
    Catalogue() {
        bl::gnu_gettext::messages_info info;
        info.language = code_of(Language::german);
        info.encoding = std::string("UTF-8");
        info.domains.emplace_back("ullage");
        info.paths.emplace_back("built-in");
        info.callback = [](const std::string&, const std::string&) {
            return std::vector<char>(german_catalogue, german_catalogue + german_catalogue_bytes);
        };
        locale_ = std::locale(std::locale::classic(), bl::gnu_gettext::create_messages_facet<char>(info));
        messages_ = &std::use_facet<Messages>(locale_);
    }
    const Messages& messages() const { return *messages_; }

private:
    std::locale locale_;
    const Messages* messages_ = nullptr;
};

const Messages& german() {
    static const Catalogue catalogue;  // never changed once it is made; made once, whichever thread comes first
    return catalogue.messages();
}

const char* or_null(const char* context) { return context && *context != '\0' ? context : nullptr; }

}  // namespace

std::string translated(Language language, const char* context, const std::string& text) {
    if (language == Language::english || text.empty()) return text;
    const char* found = german().get(0, or_null(context), text.c_str());
    return found ? found : text;
}

std::string translated(Language language, const char* context, const std::string& one, const std::string& many,
                       long count) {
    if (language == Language::german) {
        const int n = static_cast<int>(std::clamp(count, 0L, 1'000'000L));
        if (const char* found = german().get(0, or_null(context), one.c_str(), n)) return found;
    }
    return count == 1 ? one : many;
}

}  // namespace ullage
