// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/buy/block_bars.h"

#include "ui/buy/buy_text.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QLocale>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

double finite(double charge) { return std::isfinite(charge) ? std::max(0.0, charge) : 0; }
QString figure(double charge) { return QLocale().toString(charge, 'f', 2); }
QString block(double bytes) { return Words::bytes(bytes, Prefixes::binary, 4); }

}  // namespace

BlockBars::BlockBars(QWidget* parent) : ReadChart(parent) { changed(); }

void BlockBars::setBox(const BoxOutlook* box) {
    const bool other = !box || box->name != box_.name;
    box_ = box ? *box : BoxOutlook{};
    changed(other);
}

QString BlockBars::title() const {
    return hasData() ? BuyText::blocksTitle(box_) : tr("What small blocks cost");
}

QString BlockBars::summary() const {
    QStringList words;
    for (const BlockCost& cost : box_.costs) words << BuyText::block(cost, prefixes());
    if (words.isEmpty()) return tr("Nothing computed yet.");
    return words.join(u' ') + u' ' + BuyText::blocksNote(box_, prefixes());
}

double BlockBars::top() const {
    double most = 1.2;
    for (const BlockCost& cost : box_.costs)
        most = std::max({most, finite(cost.charge), finite(cost.better_charge)});
    return most * 1.02;
}

BarRows BlockBars::rowsFor(double width, const QFont& font) const {
    std::vector<BarRow> rows;
    for (const BlockCost& cost : box_.costs) {
        BarRow row;
        row.name = tr("%1, %2", "dataset, block size")
                       .arg(QString::fromStdString(cost.dataset), block(cost.block_bytes));
        row.value = figure(cost.charge);
        if (cost.better_block_bytes)
            row.note = tr("%1 in %2 blocks", "charge, block size")
                           .arg(figure(cost.better_charge), block(*cost.better_block_bytes));
        rows.push_back(row);
    }
    return placed_rows(std::move(rows), ring_room, width - 2 * ring_room, ring_room, font);
}

int BlockBars::heightForWidth(int width) const {
    return static_cast<int>(std::ceil(rowsFor(width, font()).bottom + ring_room));
}

std::vector<ReadChart::Reading> BlockBars::readings() const {
    std::vector<Reading> all;
    const BarRows placed = rowsFor(width(), font());
    for (std::size_t i = 0; i < placed.rows.size(); ++i) {
        const QRectF& bar = placed.rows[i].bar;
        all.push_back({QPointF(bar.left() + bar.width() * finite(box_.costs[i].charge) / top(),
                               bar.center().y()),
                       BuyText::block(box_.costs[i], prefixes())});
    }
    return all;
}

int BlockBars::nearest(const QPointF& point) const {
    const BarRows placed = rowsFor(width(), font());
    for (std::size_t i = 0; i < placed.rows.size(); ++i)
        if (placed.rows[i].place.contains(point)) return static_cast<int>(i);
    return -1;
}

void BlockBars::drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                            const QFont& font) const {
    if (!hasData()) return;
    const BarRows placed = rowsFor(size.width(), font);
    for (std::size_t i = 0; i < placed.rows.size(); ++i) {
        const BarRow& row = placed.rows[i];
        const BlockCost& cost = box_.costs[i];
        const auto x = [&](double charge) {
            return row.bar.left() + row.bar.width() * finite(charge) / top();
        };
        QRectF plain = row.bar, extra = row.bar;
        plain.setRight(x(std::min(1.0, finite(cost.charge))));
        extra.setLeft(plain.right());
        extra.setRight(x(cost.charge));
        painter.setPen(Qt::NoPen);
        painter.setBrush(mixed(theme.surface, theme.median, 0.38));
        painter.drawRect(plain);
        if (extra.width() > 0.5) {
            const QRectF inner = extra.adjusted(0, 0.5, -0.5, -0.5);
            painter.setPen(QPen(theme.full, 1));
            painter.setBrush(Qt::NoBrush);
            painter.drawRect(inner);
            if (inner.width() > 3) hatch(painter, inner, theme.full, 6, 1.4);
        }
        // A byte for a byte.
        painter.setPen(QPen(theme.ink, 1.5));
        const double one = std::round(x(1)) + 0.5;
        painter.drawLine(QPointF(one, row.bar.top() - 2), QPointF(one, row.bar.bottom() + 2));
        if (cost.better_block_bytes) {
            const double r = std::max(3.0, row.bar.height() * 0.26);
            painter.setPen(QPen(theme.ink, 1.6));
            painter.setBrush(theme.surface);
            painter.drawEllipse(QPointF(x(cost.better_charge), row.bar.center().y()), r, r);
        }
        const int wrap = placed.beside ? 0 : Qt::TextWordWrap;
        painter.setFont(font);
        painter.setPen(theme.ink);
        painter.drawText(row.name_place, Qt::AlignLeft | Qt::AlignVCenter | wrap, row.name);
        const bool under = row.value_place.top() > row.name_place.top() + 1;
        painter.drawText(row.value_place,
                         (under ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter | wrap,
                         row.value);
        painter.setFont(bar_note_font(font));
        painter.setPen(theme.muted);
        painter.drawText(row.note_place, Qt::AlignLeft | Qt::AlignVCenter | wrap, row.note);
    }
}

}  // namespace ullage
