// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the tests of the site file share: the samples, and assertions on problems by pointer.

#include "core/site/site_json.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>

namespace ullage::testing {

inline std::string read_data(const std::string& name) {
    std::ifstream file(std::string(ULLAGE_TEST_DATA) + "/site/" + name, std::ios::binary);
    EXPECT_TRUE(file) << name;
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

inline std::string quayside() { return read_data("quayside.site.json"); }
inline std::string every_key() { return read_data("every-key.site.json"); }

/// A short valid site: two boxes, a relay box, a link, two sends of one dataset, an offer.
inline std::string small_site() {
    return R"({
  "format": "ullage-site", "version": 1, "name": "Small", "as_of": "2026-11-01",
  "horizon": "5 y", "confidence": 0.9, "time_zone": "UTC",
  "datasets": [ { "name": "data", "home": "office", "block_size": "128 KiB", "live": "1 TB",
    "compression_ratio": 1.5,
    "growth": { "per_year": "100 GB", "spread": 0.1 },
    "turnover": { "per_day": "10 GB", "per_week": "40 GB", "per_month": "90 GB", "spread": 0.1 },
    "week_shape": [1, 1, 1, 1, 1, 0, 0],
    "ladder": [ { "every": "1 d", "count": 30 } ],
    "events": [ { "on": "2027-03-01", "remove": "300 GB" } ] } ],
  "boxes": [ { "name": "office" },
    { "name": "attic", "ceiling": 0.8, "other_data": "1 GB", "disk_rate": "200 MB/s",
      "pool": { "groups": 1, "width": 6, "redundancy": "parity-2", "drive": "4 TB", "spares": 0,
                "sector": "4 KiB" } },
    { "name": "far", "usable": "9 TB" } ],
  "links": [ { "name": "line", "up": "50 Mbit/s", "round_trip": "20 ms", "loss": 0, "mtu": 1500,
    "ip": 4, "receive_window": "6 MiB", "streams": 1,
    "hours": [ { "days": "Mon-Fri", "from": "19:00", "to": "06:00", "share": 0.8 } ] } ],
  "sends": [ { "name": "nightly", "datasets": ["data"], "from": "office", "to": "attic",
      "over": "line", "start": { "every": "1 d", "at": "20:00" }, "cipher_rate": "400 MB/s",
      "ladder": [ { "every": "1 w", "count": 10 } ],
      "first_copy": { "by": "courier", "copy_rate": "100 MB/s", "days_away": 2 } },
    { "name": "onward", "datasets": ["data"], "from": "attic", "to": "far", "over": "line",
      "payload": "expanded", "stream_ratio": 1.5 } ],
  "offers": [ { "name": "drives", "box": "attic", "price": 100, "power": "40 W", "life": "5 y",
      "usable": "20 TB" } ]
}
)";
}

/// The text with its only (or, if so said, its n-th) `from` replaced.
inline std::string with(std::string text, const std::string& from, const std::string& to,
                        int nth = 0) {
    std::size_t at = text.find(from);
    for (int i = 0; i < nth && at != std::string::npos; ++i) at = text.find(from, at + 1);
    EXPECT_NE(at, std::string::npos) << "not in the sample: " << from;
    if (at != std::string::npos) text.replace(at, from.size(), to);
    return text;
}

inline Problems problems_of(const std::string& text) {
    const auto site = parse_site(text);
    return site ? Problems{} : site.error();
}

inline std::string listed(const Problems& problems) {
    std::string out;
    for (const Problem& problem : problems) out += problem.where + ": " + problem.what + "\n";
    return out.empty() ? "no problem" : out;
}

inline bool reports(const Problems& problems, const std::string& where, const std::string& part) {
    return std::any_of(problems.begin(), problems.end(), [&](const Problem& problem) {
        return problem.where == where && problem.what.find(part) != std::string::npos;
    });
}

/// Exactly one problem, at that pointer, saying that.
inline ::testing::AssertionResult only_problem(const Problems& problems, const std::string& where,
                                               const std::string& part) {
    if (problems.size() == 1 && reports(problems, where, part)) {
        return ::testing::AssertionSuccess();
    }
    return ::testing::AssertionFailure()
           << "expected only " << where << ": …" << part << "…\nfound\n"
           << listed(problems);
}

}  // namespace ullage::testing
