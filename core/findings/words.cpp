// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/words.h"

#include <algorithm>
#include <cmath>

namespace ullage {

std::string chance_of_futures(double chance, const Wording& w) {
    const long tenths = std::lround(chance * 10);
    if (chance <= 0) return w.say("none of the futures");
    if (chance >= 1) return w.say("all futures");
    if (tenths == 0) return w.say("fewer than 1 in 10 futures");
    if (tenths == 10) return w.say("more than 9 in 10 futures");
    if (tenths == 5) return w.say("half of the futures");
    return w.say("{} in 10 futures", tenths);
}

std::string chance_of_runs(double chance, const Wording& w) {
    const long tenths = std::lround(chance * 10);
    if (chance <= 0) return w.say("none of the runs");
    if (chance >= 1) return w.say("all runs");
    if (tenths == 0) return w.say("fewer than 1 in 10 runs");
    if (tenths == 10) return w.say("more than 9 in 10 runs");
    if (tenths == 5) return w.say("half of the runs");
    return w.say("{} in 10 runs", tenths);
}

std::string say_futures(double share, const Wording& w) {
    if (share <= 0) return w.say("no future drawn");
    if (share >= 1) return w.say("all futures drawn");
    const double tenths = share * 10;
    if (std::abs(tenths - std::round(tenths)) < 1e-6) return w.say("{} of 10 futures", std::lround(tenths));
    return w.say("{} % of futures", std::clamp(std::lround(share * 100), 1L, 99L));
}

std::string limit_words(Limit limit, const Wording& w) {
    switch (limit) {
        case Limit::rate: return w.say("the line's own rate");
        case Limit::window: return w.say("the receive window over the round trip");
        case Limit::loss: return w.say("packet loss");
        case Limit::cipher: return w.say("the speed of the cipher");
        case Limit::disk: return w.say("the speed of the disks");
        case Limit::hours: return w.say("the time the line is open");
    }
    return {};
}

std::string step_words(const std::string& step, const Wording& w) {
    if (step == "line") return w.say("the line itself");
    if (step == "share") return w.say("the share of it that is free");
    if (step == "framing") return w.say("Ethernet frames");
    if (step == "ip") return w.say("IP headers");
    if (step == "tcp") return w.say("TCP headers");
    if (step == "vlan") return w.say("VLAN tag");
    if (step == "pppoe") return w.say("PPPoE headers");
    if (step == "wireguard") return w.say("WireGuard tunnel");
    if (step == "esp") return w.say("IPsec tunnel (ESP)");
    if (step == "esp-udp") return w.say("IPsec tunnel (ESP in UDP)");
    if (step == "ssh") return w.say("SSH records");
    if (step == "tls") return w.say("TLS records");
    if (step == "window") return w.say("receive window over round trip");
    if (step == "loss") return w.say("lost packets");
    if (step == "cipher") return w.say("cipher");
    if (step == "disk") return w.say("disks");
    return step;
}

std::string month_of(Day as_of, double days, const Wording& w) { return w.month(add_days(as_of, days)); }

std::string say_days(double days) { return Wording().span(days); }
std::string say_horizon(double days) { return Wording().horizon(days); }
std::string say_hours(double hours) { return Wording().hours(hours); }
std::string say_money(double amount, const std::string& currency) { return Wording().money(amount, currency); }

}  // namespace ullage
