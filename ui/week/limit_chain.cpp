// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/week/limit_chain.h"

#include "ui/theme/bar_rows.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage {

QString limit_step_words(const std::string& key) {
    static const auto words = [](const char* text) { return LimitChain::tr(text); };
    if (key == "line") return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "Line rate"));
    if (key == "share") return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "Share of the line"));
    if (key == "framing") return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "Ethernet framing"));
    if (key == "ip") return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "IP headers"));
    if (key == "tcp") return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "TCP headers"));
    if (key == "vlan") return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "VLAN tag"));
    if (key == "pppoe") return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "PPPoE headers"));
    if (key == "wireguard")
        return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "WireGuard tunnel"));
    if (key == "esp") return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "IPsec ESP tunnel"));
    if (key == "esp-udp")
        return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "IPsec ESP tunnel in UDP"));
    if (key == "ssh") return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "SSH records"));
    if (key == "tls") return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "TLS records"));
    if (key == "window")
        return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "Receive window ÷ round trip"));
    if (key == "loss") return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "Packet loss"));
    if (key == "cipher") return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "Cipher"));
    if (key == "disk") return words(QT_TRANSLATE_NOOP("ullage::LimitChain", "Disks"));
    return QString::fromStdString(key);
}

QString limit_name(Limit limit) {
    switch (limit) {
        case Limit::rate:
            return LimitChain::tr("the line's rate");
        case Limit::window:
            return LimitChain::tr("the receive window");
        case Limit::loss:
            return LimitChain::tr("packet loss");
        case Limit::cipher:
            return LimitChain::tr("the cipher");
        case Limit::disk:
            return LimitChain::tr("the disks");
        case Limit::hours:
            break;
    }
    return LimitChain::tr("the open hours");
}

LimitChain::LimitChain(QWidget* parent) : DrawnWidget(parent) {
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    tell();
}

void LimitChain::setGoodput(const Goodput* goodput, Limit bound_by) {
    has_ = goodput != nullptr;
    goodput_ = goodput ? *goodput : Goodput{};
    bound_by_ = bound_by;
    tell();
    updateGeometry();
    update();
}

QString LimitChain::sentence() const {
    if (!has_) return {};
    const QString rate = Words::rate(goodput_.bits_per_second);
    QString text;
    if (bound_by_ == Limit::hours)
        text =
            tr("While it is open the line carries %1, bound by %2; but its open hours are too few.")
                .arg(rate, limit_name(goodput_.bound_by));
    else
        text = tr("What binds is %1: %2 are left for the data.")
                   .arg(limit_name(goodput_.bound_by), rate);
    if (goodput_.next_limit != goodput_.bound_by && goodput_.next_bits_per_second > 0)
        text += u' ' + tr("With %1 lifted, %2 would bind next, at %3.")
                           .arg(limit_name(goodput_.bound_by), limit_name(goodput_.next_limit),
                                Words::rate(goodput_.next_bits_per_second));
    return text;
}

void LimitChain::tell() {
    if (!has_) {
        describe(tr("Limits of the link"), tr("Nothing computed yet."));
        return;
    }
    QStringList words;
    const QString state_text = state_words(state());
    if (!state_text.isEmpty()) words << state_text + u'.';
    words << sentence();
    for (const LimitStep& step : goodput_.chain)
        words << (step.binding ? tr("%1: %2, this one binds.") : tr("%1: %2."))
                     .arg(limit_step_words(step.name), Words::rate(step.bits_per_second));
    describe(tr("Limits of the link, in steps"), words.join(u' '));
}

std::vector<LimitChain::Row> LimitChain::rowsFor(double width, const QFont& font,
                                                 double* height) const {
    double top = 0;
    std::vector<BarRow> wanted;
    for (const LimitStep& step : goodput_.chain) {
        top = std::max(top, step.bits_per_second);
        BarRow row;
        row.name = limit_step_words(step.name);
        row.value = Words::rate(step.bits_per_second);
        row.bold = step.binding;
        // A limit above what reaches it takes nothing away: then it is said what it would allow.
        // Headers have no limit of their own, they only take a share.
        const bool limit = step.name == "window" || step.name == "loss" || step.name == "cipher" ||
                           step.name == "disk";
        if (step.binding)
            row.note = tr("binds");
        else if (limit && step.own_bits_per_second > step.bits_per_second * 1.0005)
            row.note = tr("would allow %1").arg(Words::rate(step.own_bits_per_second));
        wanted.push_back(row);
    }
    BarRows placed =
        placed_rows(std::move(wanted), ring_room, width - 2 * ring_room, ring_room, font);
    std::vector<Row> rows;
    for (std::size_t i = 0; i < placed.rows.size(); ++i) {
        const BarRow& row = placed.rows[i];
        const double share = top > 0 ? goodput_.chain[i].bits_per_second / top : 0;
        QRectF bar = row.bar;
        bar.setWidth(std::max(2.0, bar.width() * share));
        rows.push_back({row.name, row.value, row.note, row.place, row.name_place, bar,
                        row.value_place, row.note_place, row.bold});
    }
    if (height) *height = std::max(placed.bottom, QFontMetricsF(font).height()) + ring_room;
    return rows;
}

int LimitChain::heightForWidth(int width) const {
    double height = 0;
    rowsFor(width, font(), &height);
    return static_cast<int>(std::ceil(height));
}

void LimitChain::drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                             const QFont& font) const {
    const QFont bold = scaled(font, 1, QFont::DemiBold);
    const auto rows = rowsFor(size.width(), font);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const Row& row = rows[i];
        painter.setPen(Qt::NoPen);
        painter.setBrush(row.binding ? theme.median : mixed(theme.surface, theme.median, 0.38));
        painter.drawRect(row.bar);
        // The step down from the row above: what this limit took.
        const bool beside = row.name_place.right() < row.bar.left();
        if (beside && i > 0 && rows[i - 1].bar.right() > row.bar.right() + 1) {
            const double x = std::floor(rows[i - 1].bar.right()) - 0.5;
            painter.setPen(QPen(theme.edge, 1));
            painter.drawLine(QPointF(x, rows[i - 1].bar.bottom()),
                             QPointF(x, row.bar.center().y()));
            painter.drawLine(QPointF(x, row.bar.center().y()),
                             QPointF(row.bar.right(), row.bar.center().y()));
        }
        painter.setPen(theme.ink);
        painter.setFont(row.binding ? bold : font);
        painter.drawText(row.name_place, Qt::AlignLeft | Qt::AlignVCenter, row.name);
        const bool under = row.rate_place.top() > row.name_place.top() + 1;
        painter.drawText(row.rate_place,
                         (under ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter, row.rate);
        if (!row.own.isEmpty()) {
            painter.setPen(row.binding ? theme.median : theme.muted);
            painter.setFont(row.binding ? scaled(bar_note_font(font), 1, QFont::DemiBold)
                                        : bar_note_font(font));
            painter.drawText(row.own_place, Qt::AlignLeft | Qt::AlignVCenter, row.own);
        }
    }
}

}  // namespace ullage
