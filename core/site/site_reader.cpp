// SPDX-License-Identifier: GPL-3.0-or-later
/// The members of a site and of its items, as the file has them.
#include "core/site/member_reader.h"

#include <iterator>

namespace ullage {
namespace {

void read_text_item(ReadReport& report, const JsonNode& node, const std::string& at, std::string& out) {
    if (node.type == JsonNode::Type::text) {
        out = node.text;
    } else {
        report.add(at, fmt::format("found {}, expected a text", found(node)));
    }
}

void read_wrapper(ReadReport& report, const JsonNode& node, const std::string& at, Wrapper& out) {
    if (node.type != JsonNode::Type::text) {
        report.add(
            at, fmt::format("found {}, expected one of {}", found(node), all_words(wrapper_words)));
        return;
    }
    const auto wrapper = parse_wrapper(node.text);
    if (wrapper) {
        out = *wrapper;
    } else {
        report.add(at, wrapper.error());
    }
}

void read_rung(ReadReport& report, const JsonNode& node, const std::string& at, Rung& out) {
    MemberReader fields(report, node, at, "a rung such as { \"every\": \"1 d\", \"count\": 30 }");
    read_entered(fields, "every", out.every, Presence::required);
    int count = 0;
    if (read_whole(fields, "count", count)) out.count = count;
    read_entered(fields, "for", out.keep_for);
    fields.finish(out.extras);
}

void read_growth(ReadReport& report, const JsonNode& node, const std::string& at, Growth& out) {
    MemberReader fields(report, node, at, "an object such as { \"per_year\": \"1.6 TB\" }");
    read_entered(fields, "per_year", out.per_year, Presence::required);
    read_number(fields, "spread", out.spread, true);
    fields.finish(out.extras);
}

void read_turnover(ReadReport& report, const JsonNode& node, const std::string& at, Turnover& out) {
    MemberReader fields(report, node, at, "an object such as { \"per_day\": \"14 GB\" }");
    read_entered(fields, "per_day", out.per_day);
    read_entered(fields, "per_week", out.per_week);
    read_entered(fields, "per_month", out.per_month);
    read_number(fields, "spread", out.spread, true);
    read_text(fields, "listing", out.listing);
    read_text(fields, "listing_dataset", out.listing_dataset);
    read_list(fields, "listing_columns", out.listing_columns, read_text_item);
    read_flag(fields, "listing_skip_bad_lines", out.listing_skip_bad_lines);
    fields.finish(out.extras);
}

void read_event(ReadReport& report, const JsonNode& node, const std::string& at, Event& out) {
    MemberReader fields(report, node, at,
                  "an event such as { \"on\": \"2027-03-01\", \"add\": \"2.5 TB\" }");
    read_date(fields, "on", out.on, Presence::required);
    read_kind(fields, node, at, "an event", event_words, out.kind,
              [&](const auto& word) { read_entered(fields, word.text, out.amount); });
    read_number(fields, "spread", out.spread, true);
    Entered<Duration> date_spread;
    if (read_days(fields, "days", date_spread)) out.date_spread = date_spread;
    read_text(fields, "note", out.note);
    fields.finish(out.extras);
}

void read_week_shape(MemberReader& fields, std::optional<std::array<double, 7>>& out) {
    constexpr std::string_view expected = "a list of 7 numbers, Monday first";
    const JsonNode* node = fields.get("week_shape");
    if (node == nullptr) return;
    if (node->type != JsonNode::Type::list) {
        fields.wrong_type("week_shape", *node, expected);
        return;
    }
    if (node->items.size() != 7) {
        fields.add(fields.at("week_shape"),
                   fmt::format("found {} items, expected {}", node->items.size(), expected));
        return;
    }
    std::array<double, 7> shape{};
    bool complete = true;
    for (std::size_t i = 0; i < 7; ++i) {
        const auto value =
            number_of(fields.report(), below(fields.at("week_shape"), i), node->items[i], true);
        complete = complete && value;
        shape[i] = value.value_or(0);
    }
    if (complete) out = shape;
}

void read_dataset(ReadReport& report, const JsonNode& node, const std::string& at, Dataset& out) {
    MemberReader fields(report, node, at, "a dataset, { … }");
    read_text(fields, "name", out.name, Presence::required);
    read_word(fields, "kind", out.kind, kind_words);
    read_entered(fields, "block_size", out.block_size);
    read_text(fields, "home", out.home);
    read_entered(fields, "live", out.live);
    read_entered(fields, "logical", out.logical);
    read_number(fields, "compression_ratio", out.compression_ratio, false);
    read_number(fields, "compression_spread", out.compression_spread, true);
    if (const JsonNode* growth = fields.get("growth")) {
        read_growth(report, *growth, fields.at("growth"), out.growth.emplace());
    }
    if (const JsonNode* turnover = fields.get("turnover")) {
        read_turnover(report, *turnover, fields.at("turnover"), out.turnover.emplace());
    }
    read_week_shape(fields, out.week_shape);
    read_list(fields, "ladder", out.ladder, read_rung);
    read_list(fields, "events", out.events, read_event);
    read_text(fields, "usage", out.usage);
    fields.finish(out.extras);
}

/// Groups, width, redundancy and drive, which a pool and its further groups have alike.
template <class Groups>
void read_shape(MemberReader& fields, Groups& out) {
    read_whole(fields, "groups", out.groups);
    const bool width = read_whole(fields, "width", out.width);
    constexpr std::string_view expected =
        "\"none\", \"mirror-2\" to \"mirror-4\" or \"parity-1\" to \"parity-3\"";
    if (const JsonNode* redundancy = fields.need("redundancy", expected)) {
        if (redundancy->type != JsonNode::Type::text) {
            fields.wrong_type("redundancy", *redundancy, expected);
        } else if (const auto value = parse_redundancy(redundancy->text)) {
            out.redundancy = *value;
        } else {
            fields.add(fields.at("redundancy"), value.error());
        }
    }
    if (!width && out.redundancy.kind == Redundancy::Kind::parity) {
        fields.need("width", "the number of drives in a group");
    } else if (!width) {
        out.width = out.redundancy.n;
    }
    read_entered(fields, "drive", out.drive, Presence::required);
}

void read_groups(ReadReport& report, const JsonNode& node, const std::string& at, DriveGroups& out) {
    MemberReader fields(report, node, at,
                  "groups such as { \"groups\": 1, \"width\": 6, \"redundancy\": \"parity-2\", "
                  "\"drive\": \"16 TB\" }");
    read_shape(fields, out);
    read_entered(fields, "sector", out.sector);
    fields.finish(out.extras);
}

void read_pool(ReadReport& report, const JsonNode& node, const std::string& at, Pool& out) {
    MemberReader fields(report, node, at,
                  "a pool such as { \"groups\": 1, \"width\": 6, \"redundancy\": \"parity-2\", "
                  "\"drive\": \"12 TB\" }");
    read_shape(fields, out);
    read_whole(fields, "spares", out.spares);
    read_entered(fields, "sector", out.sector);
    read_list(fields, "further", out.further, read_groups);
    fields.finish(out.extras);
}

void read_change(ReadReport& report, const JsonNode& node, const std::string& at, BoxChange& out) {
    MemberReader fields(report, node, at,
                  "a change such as { \"on\": \"2027-06-01\", \"swap_drives\": \"20 TB\" }");
    read_date(fields, "on", out.on, Presence::required);
    read_kind(fields, node, at, "a change", change_words, out.kind, [&](const auto& word) {
        switch (word.value) {
            case BoxChange::Kind::add_groups:
                read_groups(report, *fields.get(word.text), fields.at(word.text), out.added);
                break;
            case BoxChange::Kind::swap_drives:
                read_entered(fields, word.text, out.drive);
                break;
            case BoxChange::Kind::widen:
                read_whole(fields, word.text, out.width);
                break;
            case BoxChange::Kind::resize:
                read_entered(fields, word.text, out.usable);
                break;
        }
    });
    read_whole(fields, "set", out.set);
    read_text(fields, "note", out.note);
    fields.finish(out.extras);
}

void read_enclosure(ReadReport& report, const JsonNode& node, const std::string& at, Enclosure& out) {
    MemberReader fields(report, node, at, "an enclosure such as { \"bays\": 8 }");
    int bays = 0;
    if (read_whole(fields, "bays", bays)) out.bays = bays;
    read_entered(fields, "power", out.power);
    fields.finish(out.extras);
}

void read_box(ReadReport& report, const JsonNode& node, const std::string& at, Box& out) {
    MemberReader fields(report, node, at, "a box, { … }");
    read_text(fields, "name", out.name, Presence::required);
    if (fields.get("in_service") != nullptr)
        read_date(fields, "in_service", out.in_service.emplace());
    read_number(fields, "ceiling", out.ceiling, true);
    read_entered(fields, "lead_time", out.lead_time);
    if (const JsonNode* pool = fields.get("pool")) {
        read_pool(report, *pool, fields.at("pool"), out.pool.emplace());
    }
    read_entered(fields, "usable", out.usable);
    read_entered(fields, "other_data", out.other_data);
    read_entered(fields, "disk_rate", out.disk_rate);
    if (const JsonNode* enclosure = fields.get("enclosure")) {
        read_enclosure(report, *enclosure, fields.at("enclosure"), out.enclosure.emplace());
    }
    read_list(fields, "changes", out.changes, read_change);
    fields.finish(out.extras);
}

void read_hours(ReadReport& report, const JsonNode& node, const std::string& at, OpenHours& out) {
    MemberReader fields(
        report, node, at,
        "hours such as { \"days\": \"Mon-Fri\", \"from\": \"19:00\", \"to\": \"06:00\" }");
    if (const JsonNode* typed = fields.get("days")) {
        if (typed->type != JsonNode::Type::text) {
            fields.wrong_type("days", *typed, "days such as \"Mon-Fri\"");
        } else if (const auto value = parse_days(typed->text)) {
            out.days = *value;
            out.days_text = typed->text;
        } else {
            fields.add(fields.at("days"), value.error());
        }
    }
    read_time(fields, "from", out.from);
    read_time(fields, "to", out.to);
    read_number(fields, "share", out.share, true);
    fields.finish(out.extras);
}

void read_link(ReadReport& report, const JsonNode& node, const std::string& at, Link& out) {
    MemberReader fields(report, node, at, "a link, { … }");
    read_text(fields, "name", out.name, Presence::required);
    read_entered(fields, "up", out.up, Presence::required);
    out.down = out.up;
    read_entered(fields, "down", out.down);
    read_entered(fields, "round_trip", out.round_trip);
    read_number(fields, "loss", out.loss, true);
    read_whole(fields, "mtu", out.mtu);
    read_whole(fields, "ip", out.ip_version);
    int outer = 0;
    if (read_whole(fields, "outer_ip", outer)) out.outer_ip_version = outer;
    read_list(fields, "wrappers", out.wrappers, read_wrapper);
    read_word(fields, "esp", out.esp, esp_words);
    read_entered(fields, "receive_window", out.receive_window);
    read_word(fields, "congestion", out.congestion, congestion_words);
    read_whole(fields, "streams", out.streams);
    read_word(fields, "sharing", out.sharing, sharing_words);
    read_list(fields, "hours", out.hours, read_hours);
    fields.finish(out.extras);
}

void read_first_copy(ReadReport& report, const JsonNode& node, const std::string& at, FirstCopy& out) {
    MemberReader fields(report, node, at, "an object such as { \"by\": \"link\" }");
    read_word(fields, "by", out.by, first_copy_words);
    read_entered(fields, "copy_rate", out.copy_rate);
    Entered<Duration> away;
    if (read_days(fields, "days_away", away)) out.days_away = in_days(away.value);
    fields.finish(out.extras);
}

void read_box_ladder(MemberReader& fields, BoxLadder& out) {
    constexpr std::string_view expected = "\"as source\", \"keep all\" or a list of rungs";
    const JsonNode* node = fields.get("ladder");
    if (node == nullptr) return;
    if (node->type == JsonNode::Type::list) {
        Ladder ladder;
        read_list(fields, "ladder", ladder, read_rung);
        out = std::move(ladder);
    } else if (node->type == JsonNode::Type::text && node->text == "as source") {
        out = AsSource{};
    } else if (node->type == JsonNode::Type::text && node->text == "keep all") {
        out = KeepAll{};
    } else {
        fields.wrong_type("ladder", *node, expected);
    }
}

void read_send(ReadReport& report, const JsonNode& node, const std::string& at, Send& out) {
    MemberReader fields(report, node, at, "a send, { … }");
    read_text(fields, "name", out.name, Presence::required);
    read_list(fields, "datasets", out.datasets, read_text_item, Presence::required);
    read_text(fields, "from", out.from, Presence::required);
    read_text(fields, "to", out.to, Presence::required);
    read_text(fields, "over", out.over, Presence::required);
    if (const JsonNode* start = fields.get("start")) {
        MemberReader inner(report, *start, fields.at("start"),
                     "an object such as { \"every\": \"1 d\", \"at\": \"20:00\" }");
        read_entered(inner, "every", out.every);
        read_time(inner, "at", out.at);
        read_flag(inner, "after_each_snapshot", out.after_each_snapshot);
        for (const std::string_view key : {"every", "at"}) {
            if (out.after_each_snapshot && inner.get(key) != nullptr) {
                inner.add(inner.at(key),
                          "a send that starts after each snapshot has no time of its "
                          "own; leave one of the two out");
            }
        }
        inner.finish(out.start_extras);
    }
    read_word(fields, "steps", out.steps, steps_words);
    read_word(fields, "payload", out.payload, payload_words);
    read_number(fields, "stream_ratio", out.stream_ratio, false);
    read_entered(fields, "cipher_rate", out.cipher_rate);
    read_box_ladder(fields, out.ladder);
    read_flag(fields, "hold_last_sent", out.hold_last_sent);
    if (const JsonNode* first = fields.get("first_copy")) {
        read_first_copy(report, *first, fields.at("first_copy"), out.first_copy);
    }
    fields.finish(out.extras);
}

void read_offer(ReadReport& report, const JsonNode& node, const std::string& at, Offer& out) {
    MemberReader fields(report, node, at, "an offer, { … }");
    read_text(fields, "name", out.name, Presence::required);
    read_text(fields, "box", out.box, Presence::required);
    read_word(fields, "as", out.as, offer_words);
    read_entered(fields, "price", out.price, Presence::required);
    read_entered(fields, "power", out.power);
    read_entered(fields, "life", out.life);
    read_entered(fields, "lead_time", out.lead_time);
    read_entered(fields, "drive_rate", out.drive_rate);
    read_number(fields, "failure_rate", out.failure_rate, true);
    if (const JsonNode* pool = fields.get("pool")) {
        read_pool(report, *pool, fields.at("pool"), out.pool.emplace());
    }
    read_entered(fields, "usable", out.usable);
    fields.finish(out.extras);
}

/// False: of another format or version, so that the rest would be misjudged.
bool read_header(MemberReader& fields) {
    bool ours = true;
    if (const JsonNode* format = fields.need("format", "\"ullage-site\"")) {
        if (format->type != JsonNode::Type::text || format->text != "ullage-site") {
            fields.wrong_type("format", *format, "\"ullage-site\"");
            ours = false;
        }
    }
    if (const JsonNode* version = fields.need("version", fmt::format("{}", known_version))) {
        if (version->type != JsonNode::Type::number) {
            fields.wrong_type("version", *version, fmt::format("the number {}", known_version));
        } else if (version->number != known_version) {
            fields.add(fields.at("version"), fmt::format("found version {}; this program reads "
                                                         "version {}",
                                                         version->text, known_version));
            ours = false;
        }
    }
    return ours;
}

}  // namespace

tl::expected<Site, Problems> parse_site(std::string_view json_text) {
    JsonTree tree = read_tree(json_text);
    if (!tree.complete) return tl::make_unexpected(std::move(tree.problems));
    ReadReport report;
    for (Problem& problem : tree.problems) report.add(problem.where, problem.what);
    Site site;
    MemberReader fields(report, tree.root, "", "a site, { \"format\": \"ullage-site\", … }");
    if (tree.root.type != JsonNode::Type::object || !read_header(fields)) {
        return tl::make_unexpected(std::move(report.problems));
    }
    read_text(fields, "name", site.name, Presence::required);
    read_text(fields, "prepared_for", site.prepared_for);
    read_text(fields, "prepared_by", site.prepared_by);
    read_date(fields, "as_of", site.as_of, Presence::required);
    read_text(fields, "time_zone", site.time_zone);
    read_entered(fields, "horizon", site.horizon);
    read_number(fields, "confidence", site.confidence, true);
    read_text(fields, "currency", site.currency);
    read_entered(fields, "energy_price", site.energy_price);
    read_list(fields, "datasets", site.datasets, read_dataset, Presence::required);
    read_list(fields, "boxes", site.boxes, read_box, Presence::required);
    read_list(fields, "links", site.links, read_link);
    read_list(fields, "sends", site.sends, read_send);
    read_list(fields, "offers", site.offers, read_offer);
    fields.finish(site.extras);
    Problems faults = validate_partly_read(site, report.unread);
    std::move(faults.begin(), faults.end(), std::back_inserter(report.problems));
    if (!report.problems.empty()) return tl::make_unexpected(std::move(report.problems));
    return site;
}

}  // namespace ullage
