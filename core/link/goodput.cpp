// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/link/goodput.h"

#include "core/link/packet_sizes.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <cstddef>

namespace ullage {
namespace {

using Fault = tl::unexpected<std::string>;

/// Which layers a wrapper belongs to; a wrapper may hold only those of its own or a lower level.
int level_of(Wrapper w) {
    switch (w) {
        case Wrapper::ssh:
        case Wrapper::tls:
            return 0;
        case Wrapper::wireguard:
        case Wrapper::esp:
        case Wrapper::esp_udp:
            return 1;
        case Wrapper::pppoe:
            return 2;
        case Wrapper::vlan:
            return 3;
    }
    return 0;
}

/// As a site file writes it.
const char* word_of(Wrapper w) {
    switch (w) {
        case Wrapper::vlan:
            return "vlan";
        case Wrapper::pppoe:
            return "pppoe";
        case Wrapper::wireguard:
            return "wireguard";
        case Wrapper::esp:
            return "esp";
        case Wrapper::esp_udp:
            return "esp-udp";
        case Wrapper::ssh:
            return "ssh";
        case Wrapper::tls:
            return "tls";
    }
    return "";
}

/// How many of a wrapper a link may have; 0: any number.
int most_of(Wrapper w) {
    switch (w) {
        case Wrapper::vlan:
            return 2;  // a tag in a tag (IEEE 802.1ad)
        case Wrapper::pppoe:
        case Wrapper::ssh:
        case Wrapper::tls:
            return 1;
        default:
            return 0;
    }
}

packet::EspSuite suite_of(EspCipher cipher) {
    switch (cipher) {
        case EspCipher::chacha20_poly1305:
            return packet::chacha20_poly1305;
        case EspCipher::aes_cbc_sha1:
            return packet::aes_cbc_sha1;
        case EspCipher::aes_cbc_sha256:
            return packet::aes_cbc_sha256;
        case EspCipher::aes_cbc_sha512:
            return packet::aes_cbc_sha512;
        case EspCipher::aes_gcm_16:
            break;
    }
    return packet::aes_gcm_16;
}

int outer_version(const Link& link) { return link.outer_ip_version.value_or(link.ip_version); }

int esp_outer_headers(Wrapper w, int ip_version) {
    return packet::ip_header(ip_version) + (w == Wrapper::esp_udp ? packet::udp_header : 0);
}

/// What a packet tunnel whose outer packet has `mtu` bytes leaves for the inner one.
int tunnel_mtu(Wrapper w, int mtu, const Link& link) {
    const int v = outer_version(link);
    if (w == Wrapper::wireguard) return mtu - packet::wireguard_overhead(v);
    return packet::esp_capacity(mtu, esp_outer_headers(w, v), suite_of(link.esp));
}

int tunnel_length(Wrapper w, int inner, int inner_mtu, const Link& link) {
    const int v = outer_version(link);
    if (w == Wrapper::wireguard) return packet::wireguard_length(inner, v, inner_mtu);
    return packet::esp_length(inner, esp_outer_headers(w, v), suite_of(link.esp));
}

std::string fault_of_order(const std::vector<Wrapper>& wrappers) {
    for (std::size_t i = 0; i < wrappers.size(); ++i) {
        const Wrapper w = wrappers[i];
        if (i > 0 && level_of(wrappers[i - 1]) > level_of(w)) {
            return fmt::format(
                "{} cannot be outside {}: name {} before it (wrappers are listed "
                "innermost first)",
                word_of(w), word_of(wrappers[i - 1]), word_of(w));
        }
        const auto times = std::count(wrappers.begin(), wrappers.end(), w);
        if (most_of(w) > 0 && times > most_of(w)) {
            return fmt::format("{} is listed {} times, at most {} can be", word_of(w), times,
                               most_of(w));
        }
    }
    return {};
}

/// Payload bytes per byte of the TCP stream after the first `count` wrappers.
double stream_efficiency(const std::vector<Wrapper>& wrappers, std::size_t count) {
    double share = 1;
    for (std::size_t i = 0; i < count; ++i) {
        if (wrappers[i] == Wrapper::ssh) {
            share *= double{packet::ssh_data} / packet::ssh_length(packet::ssh_data);
        } else if (wrappers[i] == Wrapper::tls) {
            share *= double{packet::tls_data} / packet::tls_length(packet::tls_data);
        }
    }
    return share;
}

/// The shape with only the first `count` wrappers on.
tl::expected<PacketShape, std::string> shape_with(const Link& link, std::size_t count) {
    const auto& wrappers = link.wrappers;
    const int v = link.ip_version;
    const int headers = packet::ip_header(v) + packet::tcp_header + packet::tcp_timestamps;

    constexpr int least_ipv6_mtu = 1280;  // RFC 8200 s. 5
    const auto too_small = [&](int packet) {
        return Fault(fmt::format("an MTU of {} bytes leaves packets of {}, and IPv6 needs {}",
                                 link.mtu, packet, least_ipv6_mtu));
    };
    int mtu = link.mtu;
    int frame_extra = 0;
    std::vector<int> inner_mtus(count, 0);
    for (std::size_t i = count; i-- > 0;) {
        switch (level_of(wrappers[i])) {
            case 1:
                if (outer_version(link) == 6 && mtu < least_ipv6_mtu) return too_small(mtu);
                mtu = tunnel_mtu(wrappers[i], mtu, link);
                break;
            case 2:
                mtu = std::min(mtu, packet::pppoe_mtu);
                frame_extra += packet::pppoe_header;
                break;
            case 3:
                frame_extra += packet::vlan_tag;
                break;
            default:
                break;
        }
        inner_mtus[i] = mtu;
    }
    if (v == 6 && mtu < least_ipv6_mtu) return too_small(mtu);
    if (mtu <= headers) {
        return Fault(
            fmt::format("an MTU of {} bytes leaves packets of {}, and their headers alone "
                        "take {}",
                        link.mtu, mtu, headers));
    }

    int length = mtu;
    for (std::size_t i = 0; i < count; ++i) {
        if (level_of(wrappers[i]) == 1) {
            length = tunnel_length(wrappers[i], length, inner_mtus[i], link);
        }
    }
    PacketShape shape;
    shape.inner_mtu = mtu;
    shape.segment_bytes = mtu - headers;
    shape.payload_bytes = shape.segment_bytes * stream_efficiency(wrappers, count);
    shape.wire_bytes = packet::ethernet_slot(length + frame_extra);
    return shape;
}

bool positive(double x) { return x > 0 && std::isfinite(x); }

std::string fault_of(const Link& link, const TransferLimits& limits, double line) {
    if (!positive(line)) {
        return fmt::format("the line's {} rate must be above 0, not {} bit/s",
                           limits.downwards ? "down" : "up", line);
    }
    if (!(limits.share >= 0 && limits.share <= 1)) {
        return fmt::format("the share of the line must be from 0 to 1, not {}", limits.share);
    }
    if (!positive(link.round_trip.value.value)) {
        return fmt::format("the round trip must be above 0, not {} s", link.round_trip.value.value);
    }
    if (!positive(link.receive_window.value.value)) {
        return fmt::format("the receive window must be above 0, not {} bytes",
                           link.receive_window.value.value);
    }
    if (!(link.loss >= 0 && link.loss < 1)) {
        return fmt::format("the loss must be at least 0 and below 1, not {}", link.loss);
    }
    if (link.streams < 1) {
        return fmt::format("a send needs at least 1 stream, not {}", link.streams);
    }
    if (limits.cipher_rate && !positive(limits.cipher_rate->value)) {
        return fmt::format("the cipher's rate must be above 0, not {} bytes/s",
                           limits.cipher_rate->value);
    }
    if (limits.disk_rate && !positive(limits.disk_rate->value)) {
        return fmt::format("the disks' rate must be above 0, not {} bytes/s",
                           limits.disk_rate->value);
    }
    return {};
}

struct OneLimit {
    Limit limit;
    double bits_per_second;
};

}  // namespace

tl::expected<PacketShape, std::string> packet_shape(const Link& link) {
    if (link.mtu < 576 || link.mtu > 65535) {
        return Fault(fmt::format("the MTU must be from 576 to 65535 bytes, not {}", link.mtu));
    }
    if (link.ip_version != 4 && link.ip_version != 6) {
        return Fault(fmt::format("the IP version is 4 or 6, not {}", link.ip_version));
    }
    if (const int outer = outer_version(link); outer != 4 && outer != 6) {
        return Fault(fmt::format("the tunnels' IP version is 4 or 6, not {}", outer));
    }
    if (std::string fault = fault_of_order(link.wrappers); !fault.empty()) {
        return Fault(std::move(fault));
    }
    return shape_with(link, link.wrappers.size());
}

double cubic_window(double loss, double round_trip_s, double c) {
    constexpr double beta = 0.7;
    const double cubic =
        std::pow(c * (3 + beta) / (4 * (1 - beta)), 0.25) * std::pow(round_trip_s / loss, 0.75);
    const double reno = 1.2 / std::sqrt(loss);
    return std::max(cubic, reno);
}

double reno_loss_factor(double loss) {
    return std::sqrt(2 * loss / 3) + 12 * std::sqrt(3 * loss / 8) * loss * (1 + 32 * loss * loss);
}

std::string to_string(Limit limit) {
    switch (limit) {
        case Limit::rate:
            return "rate";
        case Limit::window:
            return "window";
        case Limit::loss:
            return "loss";
        case Limit::cipher:
            return "cipher";
        case Limit::disk:
            return "disk";
        case Limit::hours:
            return "hours";
    }
    return "";
}

tl::expected<Goodput, std::string> goodput(const Link& link, const TransferLimits& limits) {
    const double line = (limits.downwards ? link.down : link.up).value.value;
    if (std::string fault = fault_of(link, limits, line); !fault.empty()) {
        return Fault(std::move(fault));
    }
    auto shape = packet_shape(link);
    if (!shape) return Fault(shape.error());

    Goodput result;
    result.shape = *shape;
    auto& chain = result.chain;
    const double shared = line * limits.share;
    chain.push_back({"line", line, line, false});
    chain.push_back({"share", shared, shared, false});

    const auto bare = shape_with(link, 0);
    if (!bare) return Fault(bare.error());
    const int ip = packet::ip_header(link.ip_version);
    const double in_frame = link.mtu / bare->wire_bytes;
    const double in_packet = static_cast<double>(link.mtu - ip) / link.mtu;
    const double in_segment = bare->segment_bytes / (link.mtu - ip);
    chain.push_back({"framing", shared * in_frame, shared * in_frame, false});
    chain.push_back({"ip", shared * (link.mtu - ip) / bare->wire_bytes, shared * in_packet, false});
    chain.push_back({"tcp", shared * bare->efficiency(), shared * in_segment, false});

    double efficiency = bare->efficiency();
    for (std::size_t i = 0; i < link.wrappers.size(); ++i) {
        const auto with = shape_with(link, i + 1);
        if (!with) return Fault(with.error());
        chain.push_back({word_of(link.wrappers[i]), shared * with->efficiency(),
                         shared * with->efficiency() / efficiency, false});
        efficiency = with->efficiency();
    }

    const double round_trip = link.round_trip.value.value;
    const double stream_share = shape->payload_bytes / shape->segment_bytes;
    std::vector<OneLimit> all{{Limit::rate, shared * efficiency}};

    double window =
        std::min(link.receive_window.value.value, packet::largest_window) * stream_share;
    if (std::count(link.wrappers.begin(), link.wrappers.end(), Wrapper::ssh) > 0) {
        window = std::min(window, packet::ssh_window);
    }
    all.push_back({Limit::window, window * 8 / round_trip * link.streams});
    if (link.loss > 0) {
        const double segments = link.congestion == Congestion::cubic
                                    ? cubic_window(link.loss, round_trip)
                                    : 1 / reno_loss_factor(link.loss);
        all.push_back(
            {Limit::loss, segments * shape->payload_bytes * 8 / round_trip * link.streams});
    }
    if (limits.cipher_rate) {
        all.push_back({Limit::cipher, to_bits_per_second(*limits.cipher_rate).value});
    }
    if (limits.disk_rate) {
        all.push_back({Limit::disk, to_bits_per_second(*limits.disk_rate).value});
    }

    const auto lower = [](const OneLimit& a, const OneLimit& b) {
        return a.bits_per_second < b.bits_per_second;
    };
    double running = all.front().bits_per_second;
    for (std::size_t i = 1; i < all.size(); ++i) {
        running = std::min(running, all[i].bits_per_second);
        chain.push_back({to_string(all[i].limit), running, all[i].bits_per_second, false});
    }

    const OneLimit first = *std::min_element(all.begin(), all.end(), lower);
    const std::string binding = first.limit != Limit::rate ? to_string(first.limit)
                                : limits.share < 1         ? "share"
                                                           : "line";
    for (auto& step : chain) step.binding = step.name == binding;
    std::erase_if(all, [&](const OneLimit& l) { return l.limit == first.limit; });
    const OneLimit next = *std::min_element(all.begin(), all.end(), lower);

    result.bits_per_second = first.bits_per_second;
    result.bound_by = first.limit;
    result.next_limit = next.limit;
    result.next_bits_per_second = next.bits_per_second;
    return result;
}

}  // namespace ullage
