// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Sizes of packets and records, layer by layer (bytes). Internal to core/link and its tests.
///
/// Each function takes what a layer carries and gives what it takes on the layer below. Sources:
/// Ethernet slot RFC 6349 s. 4.1.1 and RFC 5180 app. A.1; PPPoE RFC 2516 s. 7; ESP RFC 4303, 4106,
/// 3602, 3948; WireGuard as in the Linux kernel; SSH RFC 4253 s. 6, RFC 4254 s. 5.2, RFC 5647; TLS
/// 1.3 RFC 8446 s. 5.

#include <algorithm>

namespace ullage::packet {

constexpr int round_up(int n, int unit) { return (n + unit - 1) / unit * unit; }
constexpr int round_down(int n, int unit) { return n / unit * unit; }

inline constexpr int vlan_tag = 4;      ///< IEEE 802.1Q
inline constexpr int pppoe_header = 8;  ///< PPPoE 6 + PPP protocol 2
inline constexpr int pppoe_mtu = 1492;
inline constexpr int udp_header = 8;
inline constexpr int tcp_header = 20;
inline constexpr int tcp_timestamps = 12;  ///< 10, padded; on every segment (RFC 7323 s. 1.3)

constexpr int ip_header(int version) { return version == 6 ? 40 : 20; }

/// The slot of a frame that carries `carried` bytes after its type field: header 14 and check sum
/// 4, at least 64 with them, then preamble 8 and gap 12.
constexpr int ethernet_slot(int carried) { return std::max(64, 14 + carried + 4) + 8 + 12; }

/// Sizes of an ESP suite: unit that the encrypted part is padded to, initialisation vector, check
/// value.
struct EspSuite {
    int block, iv, icv;
};
inline constexpr EspSuite aes_gcm_16{4, 8, 16};          ///< RFC 4106
inline constexpr EspSuite chacha20_poly1305{4, 8, 16};   ///< RFC 7634, from memory
inline constexpr EspSuite aes_cbc_sha1{16, 16, 12};      ///< RFC 3602; check value RFC 2404, from memory
inline constexpr EspSuite aes_cbc_sha256{16, 16, 16};    ///< RFC 3602, 4868
inline constexpr EspSuite aes_cbc_sha512{16, 16, 32};    ///< RFC 3602; check value RFC 4868, from memory

/// Length of an IP packet with `carried` bytes in ESP (tunnel mode: the whole inner packet), behind
/// outer headers of `outer` bytes: SPI and sequence number 8, vector, data with pad length and next
/// header (2) padded to the block, check value.
constexpr int esp_length(int carried, int outer, EspSuite s) {
    return outer + 8 + s.iv + round_up(carried + 2, s.block) + s.icv;
}
/// The most that fits in a packet of `mtu` bytes.
constexpr int esp_capacity(int mtu, int outer, EspSuite s) {
    return round_down(mtu - outer - 8 - s.iv - s.icv, s.block) - 2;
}

/// WireGuard: data header 16 and tag 16 besides IP and UDP.
constexpr int wireguard_overhead(int ip_version) {
    return ip_header(ip_version) + udp_header + 16 + 16;
}
/// Padded to 16, but not beyond the tunnel's MTU.
constexpr int wireguard_length(int inner, int ip_version, int tunnel_mtu) {
    return std::min(round_up(inner, 16), std::max(inner, tunnel_mtu)) +
           wireguard_overhead(ip_version);
}

/// An SSH packet of a channel data message with `data` bytes, AES-GCM: length 4 (outside the
/// aligned part), padding length 1, message header 9, data, at least 4 of padding to a multiple of
/// 16, tag 16.
constexpr int ssh_length(int data) { return 4 + round_up(1 + 9 + data + 4, 16) + 16; }
inline constexpr int ssh_data = 32768;         ///< of a full packet (RFC 4254 s. 5.2)
inline constexpr double ssh_window = 2097152;  ///< of a channel: 64 full packets, a common default

/// A TLS 1.3 record: header 5, data, content type 1, tag 16; unpadded.
constexpr int tls_length(int data) { return 5 + data + 1 + 16; }
inline constexpr int tls_data = 16384;

/// Largest receive window that TCP can announce: 65535 scaled by 2^14 (RFC 7323 s. 2.2).
inline constexpr double largest_window = 65535.0 * 16384.0;

}  // namespace ullage::packet
