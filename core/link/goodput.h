// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Links: what one bulk TCP transfer gets out of a line, and which limit binds.
///
/// Model. Goodput = the least of
///   line rate × share × payload efficiency (framing, IP, TCP with timestamps, every wrapper with
///   its padding, MTU of each layer); receive window ÷ round trip × streams; the loss-limited rate
///   × streams (RFC 5348 equation for Reno, RFC 9438 response function for CUBIC, never below
///   Reno's); the cipher's rate; the disks' rate.
/// All rates are of payload: application bytes, without any header. Each step's rate is kept.
///
/// Packets. The link's `mtu` is that of the outermost IP packet; `pppoe` reduces it to at most 1492
/// (RFC 2516), so a typed 1500 stays right when that wrapper is added (larger frames of RFC 4638
/// are not modelled). Wrappers are listed innermost first, outermost last, in this order of kinds:
///   ssh, tls                  inside the TCP stream (records of 32768 and 16384 bytes)
///   wireguard, esp, esp-udp   packets in packets; esp is tunnel mode with the link's cipher
///   pppoe, then vlan          on the Ethernet frame
/// The innermost packet has the link's `ip`, the packets of tunnels its `outer_ip` (absent: the
/// same). Ethernet frames carry any MTU up to 65535, jumbo frames of 9000 included. A tunnel's own
/// MTU is what its outer packet leaves (a fixed lower interface MTU, such as 1420, is entered as a
/// lower `mtu`). An ssh channel's window is 2 MiB, which caps the window limit; a receive window is
/// at most the 1,073,725,440 bytes that TCP can announce.
///
/// Ignored: slow start (under 2 s of a bulk send), queueing, reordering, acknowledgements on the
/// other direction, retransmitted bytes, rekeying. The CUBIC response function knows no timeouts:
/// it is optimistic above a loss of a few percent.
///
/// Invariants: goodput never rises when round trip or loss rise, never falls when the line, the
/// window or the streams rise; goodput ≤ line rate; the running rates of the chain never rise.
///
/// Sources: RFC 6349, 5180, 7323, 4303, 4106, 3602, 3948, 4253, 4254, 8446, 5348, 9438, 2516; each
/// is named beside its check in the tests.

#include "core/site/site.h"
#include "core/units/units.h"

#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

/// How many payload bytes ride in a full-size packet, and what that packet takes on the wire.
struct PacketShape {
    double payload_bytes = 0;  ///< application bytes per packet (less ssh, tls record shares)
    double wire_bytes = 0;     ///< the Ethernet slot: preamble, frame, check sum, gap
    double segment_bytes = 0;  ///< TCP payload of the innermost packet (the MSS less options)
    int inner_mtu = 0;         ///< of the innermost IP packet
    double efficiency() const { return payload_bytes / wire_bytes; }
    bool operator==(const PacketShape&) const = default;
};

/// Errors: an MTU outside 576…65535 or smaller than its headers, or below 1280 for IPv6 in any
/// layer (RFC 8200); an IP version other than 4 and 6; ssh, tls or pppoe twice, vlan more than
/// twice; a wrapper inside one that cannot hold it (pppoe or vlan not outermost, ssh or tls not
/// innermost).
tl::expected<PacketShape, std::string> packet_shape(const Link&);

/// Segments in flight on average at loss p (0 < p < 1). RFC 9438 s. 5 with C = 0.4, beta = 0.7;
/// never below Reno's 1.2/√p. `round_trip` in seconds.
double cubic_window(double loss, double round_trip_s, double c = 0.4);
/// f(p) of RFC 5348 s. 3.1 with b = 1, t_RTO = 4 R: rate = segment ÷ (R f(p)). 0 < p ≤ 1.
double reno_loss_factor(double loss);

/// The limits of one transfer, in the order they are explained.
enum class Limit { rate, window, loss, cipher, disk, hours };
std::string to_string(Limit);  ///< the contract's words: "rate", "window", …

/// One step of the explanation. In order: "line", "share" (of the line), the overheads of a bare
/// link: "framing" (Ethernet), "ip", "tcp"; then each wrapper as the site lists them, by its word
/// in a site file ("ssh", "wireguard", "pppoe" …): what the link carries with it added; then
/// "window", and, where they apply, "loss", "cipher", "disk".
struct LimitStep {
    std::string name;
    double bits_per_second = 0;  ///< running: what is left after this step
    /// What this step alone would allow: of an overhead, the share of the line that it leaves; of a
    /// limit, its own rate.
    double own_bits_per_second = 0;
    /// True of exactly one step: "line" or "share" for Limit::rate, else the limit's own.
    bool binding = false;
    bool operator==(const LimitStep&) const = default;
};

struct Goodput {
    double bits_per_second = 0;  ///< of payload, with everything applied
    Limit bound_by = Limit::rate;
    Limit next_limit = Limit::rate;   ///< what would bind if the first were lifted
    double next_bits_per_second = 0;  ///< … and what that would give
    std::vector<LimitStep> chain;
    PacketShape shape;
    bool operator==(const Goodput&) const = default;
};

struct TransferLimits {
    bool downwards = false;                     ///< use the link's `down` rate
    double share = 1;                           ///< of the line, 0…1
    std::optional<BytesPerSecond> cipher_rate;  ///< > 0
    std::optional<BytesPerSecond> disk_rate;    ///< > 0
};

/// A share of 0 gives a goodput of 0 (bound by the rate).
/// Errors: as packet_shape; a rate, window, round trip or limit that is not positive and finite; no
/// streams; loss outside [0, 1); share outside [0, 1].
tl::expected<Goodput, std::string> goodput(const Link&, const TransferLimits&);

}  // namespace ullage
