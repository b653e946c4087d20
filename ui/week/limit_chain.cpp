// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/week/limit_chain.h"

#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

QFont own_font(const QFont& font) { return scaled(font, 0.88); }

}  // namespace

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

std::vector<LimitChain::Row> LimitChain::rowsFor(double all_width, const QFont& font,
                                                 double* height) const {
    const double left = ring_room, width = all_width - 2 * ring_room;
    const QFontMetricsF metrics(font), bold(scaled(font, 1, QFont::DemiBold)), note(own_font(font));
    const double em = metrics.height();
    double top = 0, name_width = 0, rate_width = 0, own_width = 0;
    for (const LimitStep& step : goodput_.chain) {
        top = std::max(top, step.bits_per_second);
        name_width = std::max(name_width, bold.horizontalAdvance(limit_step_words(step.name)));
        rate_width =
            std::max(rate_width, bold.horizontalAdvance(Words::rate(step.bits_per_second)));
    }
    std::vector<Row> rows;
    const double row_height = std::round(em * 1.45);
    for (const LimitStep& step : goodput_.chain) {
        Row row;
        row.name = limit_step_words(step.name);
        row.rate = Words::rate(step.bits_per_second);
        row.binding = step.binding;
        // A limit above what reaches it takes nothing away: then it is said what it would allow.
        // Headers have no limit of their own, they only take a share.
        const bool limit = step.name == "window" || step.name == "loss" || step.name == "cipher" ||
                           step.name == "disk";
        if (step.binding)
            row.own = tr("binds");
        else if (limit && step.own_bits_per_second > step.bits_per_second * 1.0005)
            row.own = tr("would allow %1").arg(Words::rate(step.own_bits_per_second));
        own_width = std::max(own_width, note.horizontalAdvance(row.own));
        rows.push_back(row);
    }
    name_width = std::ceil(name_width) + 1;
    rate_width = std::ceil(rate_width) + 1;
    own_width = std::ceil(own_width) + 1;
    // Short of width, the name stands above its bar.
    const double gap = em * 0.8;
    const bool stacked = width < name_width + rate_width + own_width + 3 * gap + em * 8;
    double y = ring_room;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        Row& row = rows[i];
        const double own_line = stacked && !row.own.isEmpty() ? note.height() : 0;
        const double h =
            stacked ? metrics.height() + row_height * 0.7 + own_line + em * 0.3 : row_height;
        row.place = QRectF(left, y, width, h);
        const double share = top > 0 ? goodput_.chain[i].bits_per_second / top : 0;
        if (stacked) {
            row.name_place =
                QRectF(left, y, std::max(1.0, width - rate_width - gap), metrics.height());
            row.rate_place = QRectF(left + width - rate_width, y, rate_width, metrics.height());
            row.bar = QRectF(left, y + metrics.height() + em * 0.12, std::max(2.0, width * share),
                             row_height * 0.5);
            row.own_place = QRectF(left, row.bar.bottom() + em * 0.05, width, note.height());
        } else {
            const double bars = left + name_width + gap;
            const double room = left + width - bars - rate_width - own_width - 2 * gap;
            row.name_place = QRectF(left, y, name_width, h);
            row.bar = QRectF(bars, y + h * 0.17, std::max(2.0, room * share), h * 0.66);
            row.rate_place = QRectF(bars + room + gap, y, rate_width, h);
            row.own_place = QRectF(row.rate_place.right() + gap, y, own_width, h);
        }
        y += h;
    }
    if (height) *height = std::max(y, em) + ring_room;
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
        painter.drawText(row.rate_place, Qt::AlignRight | Qt::AlignVCenter, row.rate);
        if (!row.own.isEmpty()) {
            painter.setPen(row.binding ? theme.median : theme.muted);
            painter.setFont(row.binding ? scaled(own_font(font), 1, QFont::DemiBold)
                                        : own_font(font));
            painter.drawText(row.own_place, Qt::AlignLeft | Qt::AlignVCenter, row.own);
        }
    }
}

}  // namespace ullage
