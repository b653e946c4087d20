// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/json_tree.h"
#include "core/site/quantity_traits.h"
#include "core/site/site_words.h"

namespace ullage {
namespace {

template <class T>
std::string text_of(const Entered<T>& entered) {
    if (!entered.text.empty()) {
        const auto value = Traits<T>::parse(entered.text);
        if (value && *value == entered.value) return entered.text;
    }
    return Traits<T>::exact(entered.value);
}

template <class T>
bool same(const Entered<T>& a, const Entered<T>& standard) {
    return a.value == standard.value && (a.text.empty() || a.text == standard.text);
}

void put_text(JsonNode& node, std::string_view key, const std::string& text) {
    if (!text.empty()) node.put(std::string(key), JsonNode::of_text(text));
}

template <class T>
void put(JsonNode& node, std::string_view key, const Entered<T>& entered) {
    node.put(std::string(key), JsonNode::of_text(text_of(entered)));
}

/// A price that was typed as a number, or not typed, is a number.
void put(JsonNode& node, std::string_view key, const Entered<Money>& entered) {
    node.put(std::string(key), entered.text.empty() ? JsonNode::of_number(entered.value.value)
                                                    : JsonNode::of_text(text_of(entered)));
}

template <class T>
void put(JsonNode& node, std::string_view key, const std::optional<Entered<T>>& entered) {
    if (entered) put(node, key, *entered);
}

template <class T>
void put_unless(JsonNode& node, std::string_view key, const Entered<T>& entered,
                const Entered<T>& standard) {
    if (!same(entered, standard)) put(node, key, entered);
}

void put(JsonNode& node, std::string_view key, double value) {
    node.put(std::string(key), JsonNode::of_number(value));
}

void put(JsonNode& node, std::string_view key, const std::optional<double>& value) {
    if (value) put(node, key, *value);
}

void put_unless(JsonNode& node, std::string_view key, double value, double standard) {
    if (value != standard) put(node, key, value);
}

template <class T, std::size_t N>
void put_word_unless(JsonNode& node, std::string_view key, T value, T standard,
                     const std::array<Word<T>, N>& words) {
    if (value != standard) node.put(std::string(key), JsonNode::of_text(word_of(value, words)));
}

void put_extras(JsonNode& node, const Extras& extras) {
    for (const auto& [key, text] : extras) {
        JsonTree tree = read_tree(text);
        // A text that is not JSON can only have been put there in code; it is kept as a text.
        node.put(key, tree.complete ? std::move(tree.root) : JsonNode::of_text(text));
    }
}

JsonNode to_node(const Rung& rung) {
    JsonNode node = JsonNode::object();
    put(node, "every", rung.every);
    if (rung.count) put(node, "count", *rung.count);
    put(node, "for", rung.keep_for);
    put_extras(node, rung.extras);
    return node;
}

JsonNode to_node(const Event& event) {
    JsonNode node = JsonNode::object();
    node.put("on", JsonNode::of_text(format_date(event.on)));
    put(node, word_of(event.kind, event_words), event.amount);
    put_unless(node, "spread", event.spread, 0);
    put(node, "days", event.date_spread);
    put_text(node, "note", event.note);
    put_extras(node, event.extras);
    return node;
}

JsonNode to_node(const Dataset& dataset);
JsonNode to_node(const DriveGroups& groups);
JsonNode to_node(const BoxChange& change);
JsonNode to_node(const Box& box);
JsonNode to_node(const OpenHours& hours);
JsonNode to_node(Wrapper wrapper);
JsonNode to_node(const std::string& text);
JsonNode to_node(const Link& link);
JsonNode to_node(const Send& send);
JsonNode to_node(const Offer& offer);

template <class T>
JsonNode list_of(const std::vector<T>& items) {
    JsonNode node = JsonNode::list();
    for (const T& item : items) node.items.push_back(to_node(item));
    return node;
}

template <class T>
void put_list(JsonNode& node, std::string_view key, const std::vector<T>& items) {
    if (!items.empty()) node.put(std::string(key), list_of(items));
}

JsonNode to_node(const Dataset& dataset) {
    const Dataset standard;
    JsonNode node = JsonNode::object();
    node.put("name", JsonNode::of_text(dataset.name));
    put_word_unless(node, "kind", dataset.kind, standard.kind, kind_words);
    put_unless(node, "block_size", dataset.block_size, standard.block_size);
    put_text(node, "home", dataset.home);
    put(node, "live", dataset.live);
    put(node, "logical", dataset.logical);
    put(node, "compression_ratio", dataset.compression_ratio);
    put(node, "compression_spread", dataset.compression_spread);
    if (dataset.growth) {
        JsonNode growth = JsonNode::object();
        put(growth, "per_year", dataset.growth->per_year);
        put(growth, "spread", dataset.growth->spread);
        put_extras(growth, dataset.growth->extras);
        node.put("growth", std::move(growth));
    }
    if (dataset.turnover) {
        JsonNode turnover = JsonNode::object();
        put(turnover, "per_day", dataset.turnover->per_day);
        put(turnover, "per_week", dataset.turnover->per_week);
        put(turnover, "per_month", dataset.turnover->per_month);
        put(turnover, "spread", dataset.turnover->spread);
        put_text(turnover, "listing", dataset.turnover->listing);
        put_text(turnover, "listing_dataset", dataset.turnover->listing_dataset);
        if (!dataset.turnover->listing_columns.empty())
            turnover.put("listing_columns", list_of(dataset.turnover->listing_columns));
        if (dataset.turnover->listing_skip_bad_lines)
            turnover.put("listing_skip_bad_lines", JsonNode::of_flag(true));
        put_extras(turnover, dataset.turnover->extras);
        node.put("turnover", std::move(turnover));
    }
    if (dataset.week_shape) {
        JsonNode shape = JsonNode::list();
        for (const double part : *dataset.week_shape) shape.items.push_back(JsonNode::of_number(part));
        node.put("week_shape", std::move(shape));
    }
    put_list(node, "ladder", dataset.ladder);
    put_list(node, "events", dataset.events);
    put_text(node, "usage", dataset.usage);
    put_extras(node, dataset.extras);
    return node;
}

template <class Groups>
void put_shape(JsonNode& node, const Groups& groups) {
    put(node, "groups", groups.groups);
    put(node, "width", groups.width);
    node.put("redundancy", JsonNode::of_text(to_text(groups.redundancy)));
    put(node, "drive", groups.drive);
}

JsonNode to_node(const DriveGroups& groups) {
    JsonNode node = JsonNode::object();
    put_shape(node, groups);
    put(node, "sector", groups.sector);
    put_extras(node, groups.extras);
    return node;
}

JsonNode to_node(const Pool& pool) {
    const Pool standard;
    JsonNode node = JsonNode::object();
    put_shape(node, pool);
    put_unless(node, "spares", pool.spares, standard.spares);
    put_unless(node, "sector", pool.sector, standard.sector);
    put_list(node, "further", pool.further);
    put_extras(node, pool.extras);
    return node;
}

JsonNode to_node(const BoxChange& change) {
    const BoxChange standard;
    JsonNode node = JsonNode::object();
    node.put("on", JsonNode::of_text(format_date(change.on)));
    const std::string key = word_of(change.kind, change_words);
    switch (change.kind) {
        case BoxChange::Kind::add_groups:
            node.put(key, to_node(change.added));
            break;
        case BoxChange::Kind::swap_drives:
            put(node, key, change.drive);
            break;
        case BoxChange::Kind::widen:
            put(node, key, change.width);
            break;
        case BoxChange::Kind::resize:
            put(node, key, change.usable);
            break;
    }
    put_unless(node, "set", change.set, standard.set);
    put_text(node, "note", change.note);
    put_extras(node, change.extras);
    return node;
}

JsonNode to_node(const Box& box) {
    const Box standard;
    JsonNode node = JsonNode::object();
    node.put("name", JsonNode::of_text(box.name));
    if (box.in_service) node.put("in_service", JsonNode::of_text(format_date(*box.in_service)));
    put_unless(node, "ceiling", box.ceiling, standard.ceiling);
    put(node, "lead_time", box.lead_time);
    if (box.pool) node.put("pool", to_node(*box.pool));
    put(node, "usable", box.usable);
    put_unless(node, "other_data", box.other_data, standard.other_data);
    put(node, "disk_rate", box.disk_rate);
    if (box.enclosure) {
        JsonNode enclosure = JsonNode::object();
        if (box.enclosure->bays) put(enclosure, "bays", *box.enclosure->bays);
        put(enclosure, "power", box.enclosure->power);
        put_extras(enclosure, box.enclosure->extras);
        node.put("enclosure", std::move(enclosure));
    }
    put_list(node, "changes", box.changes);
    put_extras(node, box.extras);
    return node;
}

JsonNode to_node(const OpenHours& hours) {
    const OpenHours standard;
    JsonNode node = JsonNode::object();
    const auto typed = parse_days(hours.days_text);
    if (typed && *typed == hours.days) {
        node.put("days", JsonNode::of_text(hours.days_text));
    } else if (hours.days != standard.days) {
        node.put("days", JsonNode::of_text(days_text(hours.days)));
    }
    if (hours.from != standard.from) {
        node.put("from", JsonNode::of_text(format_time_of_day(hours.from)));
    }
    if (hours.to != standard.to) node.put("to", JsonNode::of_text(format_time_of_day(hours.to)));
    put_unless(node, "share", hours.share, standard.share);
    put_extras(node, hours.extras);
    return node;
}

JsonNode to_node(Wrapper wrapper) { return JsonNode::of_text(to_text(wrapper)); }
JsonNode to_node(const std::string& text) { return JsonNode::of_text(text); }

JsonNode to_node(const Link& link) {
    const Link standard;
    JsonNode node = JsonNode::object();
    node.put("name", JsonNode::of_text(link.name));
    put(node, "up", link.up);
    put_unless(node, "down", link.down, link.up);
    put_unless(node, "round_trip", link.round_trip, standard.round_trip);
    put_unless(node, "loss", link.loss, standard.loss);
    put_unless(node, "mtu", link.mtu, standard.mtu);
    put_unless(node, "ip", link.ip_version, standard.ip_version);
    if (link.outer_ip_version) put(node, "outer_ip", *link.outer_ip_version);
    put_list(node, "wrappers", link.wrappers);
    put_word_unless(node, "esp", link.esp, standard.esp, esp_words);
    put_unless(node, "receive_window", link.receive_window, standard.receive_window);
    put_word_unless(node, "congestion", link.congestion, standard.congestion, congestion_words);
    put_unless(node, "streams", link.streams, standard.streams);
    put_word_unless(node, "sharing", link.sharing, standard.sharing, sharing_words);
    put_list(node, "hours", link.hours);
    put_extras(node, link.extras);
    return node;
}

JsonNode to_node(const Send& send) {
    const Send standard;
    JsonNode node = JsonNode::object();
    node.put("name", JsonNode::of_text(send.name));
    node.put("datasets", list_of(send.datasets));
    node.put("from", JsonNode::of_text(send.from));
    node.put("to", JsonNode::of_text(send.to));
    node.put("over", JsonNode::of_text(send.over));
    JsonNode start = JsonNode::object();
    if (send.after_each_snapshot) {
        start.put("after_each_snapshot", JsonNode::of_flag(true));
    } else {
        put_unless(start, "every", send.every, standard.every);
        if (send.at != standard.at) start.put("at", JsonNode::of_text(format_time_of_day(send.at)));
    }
    put_extras(start, send.start_extras);
    if (!start.items.empty()) node.put("start", std::move(start));
    put_word_unless(node, "steps", send.steps, standard.steps, steps_words);
    put_word_unless(node, "payload", send.payload, standard.payload, payload_words);
    put_unless(node, "stream_ratio", send.stream_ratio, standard.stream_ratio);
    put(node, "cipher_rate", send.cipher_rate);
    if (std::holds_alternative<KeepAll>(send.ladder)) {
        node.put("ladder", JsonNode::of_text("keep all"));
    } else if (const auto* ladder = std::get_if<Ladder>(&send.ladder)) {
        node.put("ladder", list_of(*ladder));
    }
    if (send.hold_last_sent) node.put("hold_last_sent", JsonNode::of_flag(true));
    JsonNode first = JsonNode::object();
    put_word_unless(first, "by", send.first_copy.by, standard.first_copy.by, first_copy_words);
    put(first, "copy_rate", send.first_copy.copy_rate);
    put_unless(first, "days_away", send.first_copy.days_away, standard.first_copy.days_away);
    put_extras(first, send.first_copy.extras);
    if (!first.items.empty()) node.put("first_copy", std::move(first));
    put_extras(node, send.extras);
    return node;
}

JsonNode to_node(const Offer& offer) {
    const Offer standard;
    JsonNode node = JsonNode::object();
    node.put("name", JsonNode::of_text(offer.name));
    node.put("box", JsonNode::of_text(offer.box));
    put_word_unless(node, "as", offer.as, standard.as, offer_words);
    put(node, "price", offer.price);
    put(node, "power", offer.power);
    put(node, "life", offer.life);
    put(node, "lead_time", offer.lead_time);
    put(node, "drive_rate", offer.drive_rate);
    put(node, "failure_rate", offer.failure_rate);
    if (offer.pool) node.put("pool", to_node(*offer.pool));
    put(node, "usable", offer.usable);
    put_extras(node, offer.extras);
    return node;
}

}  // namespace

std::string write_site(const Site& site) {
    const Site standard;
    JsonNode node = JsonNode::object();
    node.put("format", JsonNode::of_text("ullage-site"));
    put(node, "version", known_version);
    node.put("name", JsonNode::of_text(site.name));
    put_text(node, "prepared_for", site.prepared_for);
    put_text(node, "prepared_by", site.prepared_by);
    node.put("as_of", JsonNode::of_text(format_date(site.as_of)));
    if (site.time_zone != standard.time_zone) {
        node.put("time_zone", JsonNode::of_text(site.time_zone));
    }
    put_unless(node, "horizon", site.horizon, standard.horizon);
    put_unless(node, "confidence", site.confidence, standard.confidence);
    if (site.currency != standard.currency) node.put("currency", JsonNode::of_text(site.currency));
    put(node, "energy_price", site.energy_price);
    node.put("datasets", list_of(site.datasets));
    node.put("boxes", list_of(site.boxes));
    put_list(node, "links", site.links);
    put_list(node, "sends", site.sends);
    put_list(node, "offers", site.offers);
    put_extras(node, site.extras);
    return write_tree(node) + "\n";
}

}  // namespace ullage
