// SPDX-License-Identifier: GPL-3.0-or-later
/// The catalogue holds what the sources say, all of it and nothing else, with the same blanks.
#include "tests/temporary_folder.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace {

const std::string folder = std::string(ULLAGE_SOURCE_DIR) + "/resources/translations";

struct Entry {
    std::string context, id, id_many;
    std::vector<std::string> translations;
    bool fuzzy = false, obsolete = false;
};
using Key = std::pair<std::string, std::string>;

/// Of a file as msgmerge and xgettext write it.
std::vector<Entry> entries_of(const std::string& file) {
    std::ifstream in(file);
    EXPECT_TRUE(in) << file;
    static const std::regex line_form(R"re((#~ )?(msgctxt|msgid_plural|msgid|msgstr(?:\[\d\])?) "(.*)")re");
    std::vector<Entry> all;
    std::string* text = nullptr;
    bool fuzzy = false, has_id = true;
    for (std::string line; std::getline(in, line);) {
        std::smatch m;
        if (line.rfind("#,", 0) == 0) {
            fuzzy = fuzzy || line.find("fuzzy") != std::string::npos;
        } else if (std::regex_match(line, m, line_form)) {
            const std::string field = m[2];
            if (field == "msgctxt" || (field == "msgid" && has_id)) {
                all.emplace_back();
                all.back().fuzzy = fuzzy;
                all.back().obsolete = m[1].matched;
                fuzzy = false;
                has_id = false;
            }
            Entry& e = all.back();
            if (field == "msgid") has_id = true;
            if (field.rfind("msgstr", 0) == 0) e.translations.emplace_back();
            text = field == "msgctxt"        ? &e.context
                   : field == "msgid"        ? &e.id
                   : field == "msgid_plural" ? &e.id_many
                                             : &e.translations.back();
            *text = m[3];
        } else if (line.size() > 1 && line.front() == '"' && text) {
            *text += line.substr(1, line.size() - 2);
        }
    }
    return all;
}

/// Which value fills which blank: "{} and {}" and "{1} und {0}" both take 0 and 1.
std::set<int> blanks_of(const std::string& text) {
    static const std::regex blank(R"(\{(\d*)\})");
    std::set<int> blanks;
    int next = 0;
    for (std::sregex_iterator at(text.begin(), text.end(), blank), end; at != end; ++at)
        blanks.insert((*at)[1].length() > 0 ? std::stoi((*at)[1]) : next++);
    return blanks;
}

bool mixes_numbered_and_not(const std::string& text) {
    static const std::regex numbered(R"(\{\d+\})");
    return text.find("{}") != std::string::npos && std::regex_search(text, numbered);
}

std::map<Key, Entry> by_key(const std::vector<Entry>& all) {
    std::map<Key, Entry> found;
    for (const auto& e : all)
        if (!e.id.empty() && !e.obsolete) found[{e.context, e.id}] = e;
    return found;
}

class Catalogue : public ::testing::Test {
protected:
    /// What the sources say now, gathered by xgettext as resources/translations/update.sh does.
    static void SetUpTestSuite() {
        const ullage::testing::TemporaryFolder folder_of_template;
        const std::string file = folder_of_template.path() / "ullage.pot";
        ASSERT_EQ(std::system(("'" + folder + "/update.sh' '" + file + "'").c_str()), 0) << "is gettext installed?";
        sources = by_key(entries_of(file));
        german = entries_of(folder + "/de.po");
    }
    static inline std::map<Key, Entry> sources;
    static inline std::vector<Entry> german;
};

TEST_F(Catalogue, HoldsEverySentenceOfTheSources) {
    EXPECT_GT(sources.size(), 500U) << "too few were found to mean anything";
    const auto known = by_key(german);
    for (const auto& [key, entry] : sources) {
        const auto found = known.find(key);
        ASSERT_NE(found, known.end()) << "missing: " << key.second;
        EXPECT_EQ(found->second.id_many, entry.id_many) << key.second;
        EXPECT_EQ(found->second.translations.size(), entry.id_many.empty() ? 1U : 2U) << key.second;
        for (const auto& text : found->second.translations) EXPECT_FALSE(text.empty()) << "not translated: " << key.second;
    }
}

TEST_F(Catalogue, HoldsNothingElseAndNothingUnsure) {
    for (const auto& e : german) {
        if (e.id.empty()) continue;  // the header
        EXPECT_FALSE(e.obsolete) << "obsolete: " << e.id;
        EXPECT_FALSE(e.fuzzy) << "fuzzy: " << e.id;
        EXPECT_EQ(sources.count({e.context, e.id}), 1U) << "no source says: " << e.id;
    }
}

TEST_F(Catalogue, TranslationsHaveTheBlanksOfTheirSentences) {
    for (const auto& e : german)
        for (std::size_t i = 0; i < e.translations.size(); ++i) {
            if (e.id.empty()) continue;
            const std::string& id = i > 0 ? e.id_many : e.id;
            EXPECT_EQ(blanks_of(e.translations[i]), blanks_of(id)) << id << "\n" << e.translations[i];
            EXPECT_FALSE(mixes_numbered_and_not(e.translations[i])) << e.translations[i];
            EXPECT_FALSE(mixes_numbered_and_not(id)) << id;
        }
}

TEST_F(Catalogue, NoGermanSentenceHasEnglishFiguresOrQuotationMarks) {
    static const std::regex english_decimal(R"(\d\.\d)");
    for (const auto& e : german)
        for (const auto& text : e.translations) {
            if (e.id.empty()) continue;
            EXPECT_FALSE(std::regex_search(text, english_decimal)) << text;
            EXPECT_EQ(text.find("”"), std::string::npos) << text;
        }
}

}  // namespace
