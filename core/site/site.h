// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The site: what is stored, kept, sent, over what, into what. Plain values, as a user typed them.
///
/// A value that was typed keeps its text beside it (`Entered`), so that a form and a saved file show
/// "9.2 TB" again and not 9200000000000. An empty text means "write the shortest exact one".
/// Defaults of the file format are the initial values here, each with its reason.
/// A site read from a file is valid (see site_json.h); one built in code may not be: `validate` it.

#include "core/units/calendar.h"
#include "core/units/units.h"

#include <array>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace ullage {

/// A value and the text it was typed as.
template <class T>
struct Entered {
    T value{};
    std::string text;  ///< as typed; empty: none, format it
    Entered() = default;
    Entered(T v, std::string t = {}) : value(v), text(std::move(t)) {}  // NOLINT: implicit by design
    bool operator==(const Entered&) const = default;
};

/// Members whose key starts with "x-": kept and ignored. Key → its JSON text.
using Extras = std::map<std::string, std::string>;

/// Bytes, or a share of the dataset's live bytes ("0.4 %").
struct Amount {
    double value = 0;
    enum class Of { bytes, live_share } of = Of::bytes;
    bool operator==(const Amount&) const = default;
    double bytes(double live_bytes) const { return of == Of::bytes ? value : value * live_bytes; }
};

/// A period of the calendar: every `n` of a unit, on the unit's grid in the site's time zone.
/// minutes, hours: multiples since local midnight. days: n = 1 every local midnight; n > 1 multiples
/// of n days since 1970-01-01. weeks: Mondays (n weeks since Monday 1970-01-05). months: the first of
/// the month (n counted from January). years: 1 January.
struct Period {
    int n = 1;  ///< at least 1
    enum class Unit { minute, hour, day, week, month, year } unit = Unit::day;
    bool operator==(const Period&) const = default;
    /// Mean length; a month is 30.4375 d here, a year 365.25 d.
    Duration length() const;
};

/// One rung of a ladder: a snapshot of the grid `every` is kept while younger than every × count.
struct Rung {
    Entered<Period> every;
    std::optional<int> count;                   ///< at least 1; either this …
    std::optional<Entered<Duration>> keep_for;  ///< … or this ("for"), not both
    Extras extras;
    bool operator==(const Rung&) const = default;
    /// every × count, or `for`.
    Duration lasts() const;
};
using Ladder = std::vector<Rung>;

struct Growth {
    Entered<Amount> per_year;        ///< may be negative; in the size that was typed (live or logical)
    std::optional<double> spread;    ///< relative standard deviation, 0…5
    Extras extras;
    bool operator==(const Growth&) const = default;
};

/// What a snapshot step of a day, a week, 30 days writes (growth included), or a listing that shows it.
struct Turnover {
    std::optional<Entered<Amount>> per_day, per_week, per_month;
    std::optional<double> spread;    ///< relative standard deviation of the level, 0…5
    std::string listing;             ///< file, relative to the site's folder; empty: none
    std::string listing_dataset;     ///< which dataset of the listing; empty: the one of the same name, or the only one
    std::vector<std::string> listing_columns;  ///< what each of its columns is, in order; empty: its first row says
    bool listing_skip_bad_lines = false;       ///< leave out lines that cannot be read
    Extras extras;
    bool operator==(const Turnover&) const = default;
};

struct Event {
    Day on{};
    enum class Kind { add, remove, rewrite, move } kind = Kind::add;
    Entered<Amount> amount;
    double spread = 0;               ///< relative standard deviation of the size
    std::optional<Entered<Duration>> date_spread;  ///< "days": standard deviation of the date
    std::string note;
    Extras extras;
    bool operator==(const Event&) const = default;
};

struct Dataset {
    std::string name;
    enum class Kind { files, volume } kind = Kind::files;
    Entered<Bytes> block_size{kib(128), "128 KiB"};   ///< a maximum for files, exact for a volume
    std::string home;                                 ///< name of the box it lives on; may be empty
    std::optional<Entered<Bytes>> live, logical;      ///< either; the other follows from the ratio
    std::optional<double> compression_ratio;          ///< ≥ 1… ; logical ÷ stored; absent: 1
    std::optional<double> compression_spread;         ///< relative standard deviation; absent: 0
    std::optional<Growth> growth;
    std::optional<Turnover> turnover;
    std::optional<std::array<double, 7>> week_shape;  ///< Monday first, relative, not all zero
    Ladder ladder;
    std::vector<Event> events;
    std::string usage;                                ///< file of a longer history (`time`, `live`)
    Extras extras;
    bool operator==(const Dataset&) const = default;
};

struct Redundancy {
    enum class Kind { none, mirror, parity } kind = Kind::none;
    int n = 1;  ///< mirror: copies 2…4; parity: drives 1…3; none: 1
    bool operator==(const Redundancy&) const = default;
};

/// Groups of drives that are alike.
struct DriveGroups {
    int groups = 1;                                    ///< ≥ 1
    int width = 1;                                     ///< drives in a group; mirror-n: n
    Redundancy redundancy;
    Entered<Bytes> drive;                              ///< as on the label
    std::optional<Entered<Bytes>> sector;              ///< only the pool's own; another is not modelled
    Extras extras;
    bool operator==(const DriveGroups&) const = default;
};

struct Pool {
    int groups = 1;                                    ///< ≥ 1
    int width = 1;                                     ///< drives in a group; mirror-n: n
    Redundancy redundancy;
    Entered<Bytes> drive;                              ///< as on the label: "12 TB"
    int spares = 0;
    Entered<Bytes> sector{kib(4), "4 KiB"};            ///< allocation unit of a drive, 512 B … 64 KiB
    std::vector<DriveGroups> further;                  ///< groups of another shape beside the first ones
    Extras extras;
    bool operator==(const Pool&) const = default;
};

/// A planned change of a box's space. One dated up to the site's `as_of` has been made already.
struct BoxChange {
    Day on{};
    enum class Kind { add_groups, swap_drives, widen, resize } kind = Kind::add_groups;
    DriveGroups added;                                 ///< add_groups
    Entered<Bytes> drive;                              ///< swap_drives: every drive of the set becomes one of these
    int width = 0;                                     ///< widen: drives in each parity group of the set from then on
    Entered<Bytes> usable;                             ///< resize, of a box that gives `usable`
    int set = 1;                                       ///< swap_drives, widen: 1 is the pool's first groups, 2 the
                                                       ///< first further ones …, then those added, by date
    std::string note;
    Extras extras;
    bool operator==(const BoxChange&) const = default;
};

/// What goes into a box.
struct Enclosure {
    std::optional<int> bays;                           ///< drives
    std::optional<Entered<Power>> power;               ///< of its supply
    Extras extras;
    bool operator==(const Enclosure&) const = default;
};

struct Box {
    std::string name;
    std::optional<Day> in_service;                     ///< absent: it is there already
    double ceiling = 0.8;                              ///< share of usable; common practice, no source
    std::optional<Entered<Duration>> lead_time;        ///< from order to running
    std::optional<Pool> pool;                          ///< either …
    std::optional<Entered<Bytes>> usable;              ///< … or; neither: not forecast
    Entered<Bytes> other_data;                         ///< stored there besides, constant
    std::optional<Entered<BytesPerSecond>> disk_rate;  ///< what its drives read or write, sustained
    std::optional<Enclosure> enclosure;                ///< absent: takes whatever is offered
    std::vector<BoxChange> changes;
    Extras extras;
    bool operator==(const Box&) const = default;
};

/// A stretch of a week with a share of the line. `to` not after `from` runs into the next day and
/// belongs to the day it starts on.
struct OpenHours {
    std::array<bool, 7> days{true, true, true, true, true, true, true};  ///< Monday first
    std::string days_text;                             ///< as typed: "Mon-Fri", "Sat,Sun"
    int from = 0;                                      ///< seconds of the day
    int to = 86400;
    double share = 1;                                  ///< 0…1
    Extras extras;
    bool operator==(const OpenHours&) const = default;
};

enum class Wrapper { vlan, pppoe, wireguard, esp, esp_udp, ssh, tls };
enum class Congestion { cubic, reno };
/// What an ESP tunnel encrypts and authenticates with; only its sizes count here.
enum class EspCipher { aes_gcm_16, chacha20_poly1305, aes_cbc_sha1, aes_cbc_sha256, aes_cbc_sha512 };
/// Sends that want one line at the same time: all at once, or in the order in which they began.
enum class Sharing { evenly, in_turn };

struct Link {
    std::string name;
    Entered<BitsPerSecond> up, down;                   ///< down absent in the file: as up
    Entered<Duration> round_trip{seconds(0.02), "20 ms"};
    double loss = 0;                                   ///< share of packets lost, 0 ≤ loss < 1
    int mtu = 1500;                                    ///< bytes, 576…65535, of the outermost IP packet
    int ip_version = 4;                                ///< 4 or 6, of the innermost packet
    std::optional<int> outer_ip_version;               ///< 4 or 6, of the packets of tunnels; absent: as ip_version
    std::vector<Wrapper> wrappers;                     ///< outermost last
    EspCipher esp = EspCipher::aes_gcm_16;             ///< of every esp and esp-udp wrapper; the usual choice today
    Entered<Bytes> receive_window{mib(6), "6 MiB"};
    Congestion congestion = Congestion::cubic;
    int streams = 1;                                   ///< parallel TCP connections of a send
    Sharing sharing = Sharing::evenly;                 ///< as TCP does when nobody schedules it
    std::vector<OpenHours> hours;                      ///< empty: always open, share 1
    Extras extras;
    bool operator==(const Link&) const = default;
};

struct FirstCopy {
    enum class By { link, courier, present } by = By::link;
    std::optional<Entered<BytesPerSecond>> copy_rate;  ///< courier
    double days_away = 0;                              ///< courier
    Extras extras;
    bool operator==(const FirstCopy&) const = default;
};

struct AsSource { bool operator==(const AsSource&) const = default; };
struct KeepAll { bool operator==(const KeepAll&) const = default; };
using BoxLadder = std::variant<AsSource, KeepAll, Ladder>;

struct Send {
    std::string name;
    std::vector<std::string> datasets;
    std::string from, to, over;                        ///< boxes and a link, by name
    Entered<Period> every{Period{1, Period::Unit::day}, "1 d"};
    int at = 0;                                        ///< seconds of the day of the first run
    bool after_each_snapshot = false;                  ///< instead of `every` and `at`: when its source has a new one
    Extras start_extras;                               ///< those inside `start`
    enum class Steps { newest, every } steps = Steps::newest;
    enum class Payload { stored, expanded, sealed } payload = Payload::stored;
    double stream_ratio = 1;                           ///< of an expanded stream compressed again
    std::optional<Entered<BytesPerSecond>> cipher_rate;
    BoxLadder ladder = AsSource{};
    bool hold_last_sent = false;
    FirstCopy first_copy;
    Extras extras;
    bool operator==(const Send&) const = default;
};

struct Offer {
    std::string name, box;
    /// drives: in the box in place of those there; added: beside them; box: in place of all of it.
    enum class As { drives, added, box } as = As::drives;
    Entered<Money> price;                              ///< in the site's currency
    std::optional<Entered<Power>> power;               ///< drawn, on the mean
    std::optional<Entered<Duration>> life, lead_time;  ///< lead_time absent: the box's
    std::optional<Entered<BytesPerSecond>> drive_rate; ///< sustained, of a drive's fastest tracks
    std::optional<double> failure_rate;                ///< of a drive in a year, 0 ≤ rate < 1
    std::optional<Pool> pool;
    std::optional<Entered<Bytes>> usable;
    Extras extras;
    bool operator==(const Offer&) const = default;
};

struct Site {
    std::string name, prepared_for, prepared_by;
    Day as_of{};
    std::string time_zone = "UTC";
    Entered<Duration> horizon{days(5 * days_per_year), "5 y"};
    double confidence = 0.9;                           ///< 0.5 < c < 1
    std::string currency = "EUR";
    std::optional<Entered<Money>> energy_price;        ///< of a kWh
    std::vector<Dataset> datasets;
    std::vector<Box> boxes;
    std::vector<Link> links;
    std::vector<Send> sends;
    std::vector<Offer> offers;
    Extras extras;
    bool operator==(const Site&) const = default;
};

}  // namespace ullage
