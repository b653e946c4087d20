// SPDX-License-Identifier: GPL-3.0-or-later
#include "random_site.h"
#include "site_testing.h"
#include "values_of.h"

#include <rapidcheck/gtest.h>

namespace ullage {
namespace {

using namespace testing;

RC_GTEST_PROP(SiteProperty, ARandomSiteIsValidAndWritingThenReadingKeepsEveryValue, ()) {
    const Site site = *any_site();
    const Problems problems = validate(site);
    if (!problems.empty()) RC_FAIL(listed(problems) + write_site(site));
    const std::string text = write_site(site);
    const auto back = parse_site(text);
    if (!back) RC_FAIL(listed(back.error()) + text);
    RC_ASSERT(values_of(*back) == values_of(site));
    RC_ASSERT(write_site(*back) == text);
    const auto again = parse_site(text);
    RC_ASSERT(*again == *back);
}

/// One byte of a valid file changed, taken out or doubled: it is read, or every problem has its words.
RC_GTEST_PROP(SiteProperty, ASiteWithOneByteWrongIsReadOrSaysWhere, ()) {
    std::string text = write_site(*any_site());
    const auto at = static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(text.size())));
    const auto byte = static_cast<char>(*rc::gen::inRange(0, 256));
    switch (*rc::gen::inRange(0, 3)) {
        case 0: text[at] = byte; break;
        case 1: text.erase(at, 1); break;
        default: text.insert(at, 1, byte);
    }
    const auto site = parse_site(text);
    if (site) {
        RC_ASSERT(validate(*site).empty());
        RC_ASSERT(write_site(*parse_site(write_site(*site))) == write_site(*site));
    } else {
        RC_ASSERT(!site.error().empty());
        for (const Problem& p : site.error()) RC_ASSERT(!p.what.empty());
    }
}

}  // namespace
}  // namespace ullage
