// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/quoted_text.h"

#include <gtest/gtest.h>

namespace ullage {
namespace {

TEST(QuotedText, ControlsOfEveryKindAreFoundByTheirNumber) {
    EXPECT_EQ(control_character("a\x1b[31m"), "U+001B");
    EXPECT_EQ(control_character("a\x7f"), "U+007F");
    EXPECT_EQ(control_character("a\u009b"), "U+009B");
    EXPECT_EQ(control_character("a\u2028"), "U+2028");
    // The directional formatting characters of UAX 9, table 2.
    for (const char* text : {"\u202a", "\u202b", "\u202c", "\u202d", "\u202e", "\u2066", "\u2067", "\u2068", "\u2069"})
        EXPECT_TRUE(control_character(text)) << text;
    for (const char* text : {"", "plain", "Zoë’s 東京 😀", "קבצים\u200f", "\u200e\u061c", "\u202f", "\u00a0", "\xff\xfe"})
        EXPECT_FALSE(control_character(text)) << text;
}

TEST(QuotedText, ControlsAndBytesThatAreNotUtf8AreWrittenOut) {
    EXPECT_EQ(without_controls("a\x1b[31m\n"), "a\\u001b[31m\\u000a");
    EXPECT_EQ(without_controls("a\u009b\u202e"), "a\\u009b\\u202e");
    EXPECT_EQ(without_controls("é 東 😀"), "é 東 😀");
    // RFC 3629: a byte alone, a cut character, an overlong "/", a surrogate, beyond U+10FFFF.
    EXPECT_EQ(without_controls("\x9b"), "\\x9b");
    EXPECT_EQ(without_controls("\xe6\x9d"), "\\xe6\\x9d");
    EXPECT_EQ(without_controls("\xc0\xaf"), "\\xc0\\xaf");
    EXPECT_EQ(without_controls("\xed\xa0\x80"), "\\xed\\xa0\\x80");
    EXPECT_EQ(without_controls("\xf4\x90\x80\x80"), "\\xf4\\x90\\x80\\x80");
    const std::string once = without_controls("\x1b\xff é");
    EXPECT_EQ(without_controls(once), once);
}

TEST(QuotedText, LongTextsAreCutBetweenCharacters) {
    EXPECT_EQ(in_quotes("short"), "\"short\"");
    const std::string cut = in_quotes(std::string(59, 'a') + "ééé");
    EXPECT_EQ(cut, "\"" + std::string(59, 'a') + "…\"");
}

}  // namespace
}  // namespace ullage
