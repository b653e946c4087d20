// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What is wrong with the meaning of a site, item by item: the work of `validate`. Each kind of item has its
/// file, check_….cpp.

#include "core/site/partly_read.h"
#include "core/site/site_json.h"
#include "core/units/quantity_text.h"
#include "core/units/quoted_text.h"

#include <array>
#include <cmath>
#include <cstddef>
#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

namespace ullage {

// The ranges of the format. Those without a reason beside them are wide enough for any real site,
// and narrow enough to catch a wrong unit.
inline constexpr std::size_t longest_name = 200;
inline constexpr double least_ratio = 0.5;  // data that grow when compressed are stored as they are
inline constexpr double most_ratio = 100;
inline constexpr double most_spread = 5;
inline constexpr int most_count = 100000;
inline constexpr int most_drives = 1000;
inline constexpr int most_streams = 256;
inline constexpr double ratio_slack = 0.01;  // live and logical are both rounded when they are typed
inline constexpr double least_horizon_days = 30;
inline constexpr double most_horizon_years = 30;
inline constexpr double most_period_days = 100 * days_per_year;
// What one forecast takes, in time and memory, grows with these; far beyond any real site.
inline constexpr std::size_t most_items = 500;
inline constexpr std::size_t most_events = 1000;
inline constexpr std::size_t most_columns = 100;
inline constexpr std::size_t most_rungs = 100;
inline constexpr std::size_t most_hours = 500;
inline constexpr double most_bytes = 1e21;  // 1000 EB: more than all that was ever sold
inline constexpr double most_shares = 1000; // of the live bytes
inline constexpr double least_bit_rate = 1;
inline constexpr double most_bit_rate = 1e15;
inline constexpr double least_byte_rate = 1;
inline constexpr double most_byte_rate = 1e15;
inline constexpr double least_round_trip_s = 1e-7;  // 10 m of cable and back
inline constexpr double most_round_trip_s = 3600;
inline constexpr int least_mtu = 576;     // RFC 791: every host takes a datagram of 576 bytes
inline constexpr int least_mtu_6 = 1280;  // RFC 8200, section 5
inline constexpr int most_mtu = 65535;    // RFC 791: total length is 16 bits

/// As typed, or else exactly.
std::string shown(const Entered<Bytes>& size);
std::string shown(const Entered<Duration>& duration);
std::string shown(const Entered<Amount>& amount);

class SiteChecker {
public:
    SiteChecker(const Site& site, const Unread& unread)
        : site_(site),
          unread_(unread),
          datasets_(names_of(site.datasets, "/datasets")),
          boxes_(names_of(site.boxes, "/boxes")),
          links_(names_of(site.links, "/links")) {}

    Problems run();

private:
    struct Names {
        std::map<std::string, std::size_t> first;  ///< name → place of the first that has it
        bool unsure = false;                       ///< some names could not be read
        bool has(const std::string& name) const { return first.count(name) > 0; }
    };

    template <class T>
    Names names_of(const std::vector<T>& items, const std::string& list) const {
        Names names;
        names.unsure = unread_.count(list) > 0;
        for (std::size_t i = 0; i < items.size(); ++i) {
            const std::string at = fmt::format("{}/{}", list, i);
            names.unsure = names.unsure || unread_.count(at) > 0 || unread_.count(at + "/name") > 0;
            names.first.emplace(items[i].name, i);
        }
        return names;
    }

    /// True if this member, or one it is part of, could not be read.
    bool unread(std::string at) const;

    /// Reports, unless it rests on a member that could not be read: the one at `where`, or one of
    /// `rests_on`, named below `base`.
    void fault(const std::string& where, std::string what, const std::string& base = {},
               std::initializer_list<const char*> rests_on = {});

    // -- numbers of items

    bool few(const std::string& where, std::size_t count, std::size_t most);
    /// Beyond these limits nothing is judged one by one.
    bool few_items();

    // -- single values

    void text(const std::string& where, const std::string& value);

    void positive(const std::string& where, double value, std::string_view given);
    void positive(const std::string& where, const Entered<Bytes>& size);
    /// Finite sums and products of sizes rest on this.
    void not_absurd(const std::string& where, double bytes, std::string_view given);
    void not_absurd(const std::string& where, const Entered<Amount>& amount);
    void positive(const std::string& where, const std::optional<Entered<BytesPerSecond>>& rate);
    void line_rate(const std::string& where, BitsPerSecond rate);
    /// Of a value above 0.
    void usual(const std::string& where, double value, double least, double most, std::string_view given,
               std::string_view range);

    void not_negative(const std::string& where, double value, std::string_view given);
    void not_negative(const std::string& where, const std::optional<Entered<Duration>>& duration);

    void within(const std::string& where, double value, double least, double most,
                std::string_view what);

    void spread(const std::string& where, double value);
    void spread(const std::string& where, const std::optional<double>& value);

    // -- names

    template <class T>
    void name(const std::string& at, const T& item, std::size_t place, const Names& names,
              const std::string& list) {
        const std::string where = at + "/name";
        if (item.name.empty()) {
            fault(where, "an empty name; give it one, as others refer to it by name");
            return;
        }
        text(where, item.name);
        if (item.name.size() > longest_name) {
            fault(where, fmt::format("a name of {} bytes; the longest is {}", item.name.size(),
                                     longest_name));
        }
        const auto hit = names.first.find(item.name);
        if (hit != names.first.end() && hit->second != place) {
            fault(where, fmt::format("the name {} is taken by {}/{}; give each its own",
                                     in_quotes(item.name), list, hit->second));
        }
    }

    /// True if the name is known, or cannot be judged.
    bool refers(const std::string& where, const std::string& value, const Names& names,
                std::string_view noun);

    // -- the site

    void check_site();

    // -- datasets

    void check_ladder(const Ladder& ladder, const std::string& at);

    void check_period(const std::string& where, const Period& period);

    /// The size the dataset's own figures are given in, if it is known without a listing.
    static std::optional<double> live_bytes(const Dataset& dataset);

    void check_dataset(const Dataset& dataset, const std::string& at);

    void check_sizes(const Dataset& dataset, const std::string& at);

    void check_listing(const Turnover& turnover, const std::string& here);
    void check_turnover(const Dataset& dataset, const Turnover& turnover, const std::string& at);

    struct Step {
        const char* key;
        const std::optional<Entered<Amount>>& amount;
        double days;
    };

    /// What is written over a longer step is no less than over a shorter one, and no more than the
    /// shorter ones in it add up to: written bytes grow with the step, ever more slowly.
    /// False: they contradict each other, which was reported.
    bool compare_steps(const std::string& at, std::optional<double> live, const Step& shorter,
                       const Step& longer);

    void check_week_shape(const std::array<double, 7>& shape, const std::string& at);

    void check_events(const Dataset& dataset, const std::string& at);

    static std::string event_key(Event::Kind kind);

    /// What is there on the day of a `remove`: the size that was typed, growth till then, and the
    /// events before it.
    void check_remove(const Dataset& dataset, const Event& event, const std::string& at,
                      const std::string& where);

    // -- boxes

    /// Groups, width, redundancy and drive.
    template <class Groups>
    void check_groups(const Groups& pool, const std::string& at) {
        within(at + "/groups", pool.groups, 1, most_drives, "the number of groups,");
        const Redundancy& redundancy = pool.redundancy;
        if (!parse_redundancy(to_text(redundancy))) {
            fault(
                at + "/redundancy",
                fmt::format("{} cannot be built; known are none, mirror-2 to mirror-4, parity-1 to "
                            "parity-3",
                            to_text(redundancy)));
        } else if (redundancy.kind == Redundancy::Kind::parity && pool.width <= redundancy.n) {
            fault(
                at + "/width",
                fmt::format("a width of {} leaves nothing beside {} parity drives; give {} or more",
                            pool.width, redundancy.n, redundancy.n + 1),
                at, {"redundancy"});
        } else if (redundancy.kind == Redundancy::Kind::mirror && pool.width != redundancy.n) {
            fault(
                at + "/width",
                fmt::format("a width of {} does not go with {}; a mirror's width is its copies, {} "
                            "(more drives are more groups)",
                            pool.width, to_text(redundancy), redundancy.n),
                at, {"redundancy"});
        } else {
            within(at + "/width", pool.width, 1, most_drives, "a width of");
        }
        const Bytes least_drive = mib(64);
        if (!(pool.drive.value >= least_drive) || !std::isfinite(pool.drive.value.value)) {
            fault(at + "/drive",
                  fmt::format("a drive of {} is smaller than {}; give the size on its label",
                              shown(pool.drive), exact_bytes(least_drive)));
        }
        not_absurd(at + "/drive", pool.drive.value.value, shown(pool.drive));
    }

    void check_pool(const Pool& pool, const std::string& at);

    void same_sector(const DriveGroups& groups, const Pool& pool, const std::string& at);

    void check_change(const BoxChange& change, const Box& box, const std::string& at);

    /// How many sets of groups the box has when the change is made.
    static int sets_before(const Box& box, const BoxChange& change);

    void check_box(const Box& box, const std::string& at);

    // -- links

    void check_link(const Link& link, const std::string& at);

    void check_hours(const Link& link, const std::string& at);

    // -- sends

    using Delivery = std::pair<std::string, std::string>;  // dataset, box

    void note_deliveries();

    void check_send(std::size_t place);

    /// Where the dataset of a send comes from: its home, or the box that an earlier send fills.
    void check_route(const Send& send, std::size_t place, const std::string& dataset,
                     const std::string& where, const std::string& at);

    void check_payload(const Send& send, const std::string& at);

    void check_first_copy(const FirstCopy& first, const std::string& at);

    // -- offers

    void check_offer(const Offer& offer, const std::string& at);

    /// What is added goes with what is there: drives to a pool, a size to a size.
    void check_added(const Offer& offer, const std::string& at);

    /// In the site's currency, or with none said.
    void price(const std::string& where, const Entered<Money>& entered, const std::string& unit);

    const Site& site_;
    const Unread& unread_;
    Names datasets_, boxes_, links_, send_names_, offer_names_;
    std::map<std::string, const Turnover*> listings_;  // the first dataset that reads each
    std::map<Delivery, std::size_t>
        deliveries_;  ///< the first send that carries a dataset to a box
    bool sends_unsure_ = false;
    int hints_ = 0;  ///< times the nearest name was looked for
    Problems problems_;
};

}  // namespace ullage
