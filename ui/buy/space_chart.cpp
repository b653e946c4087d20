// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/buy/space_chart.h"

#include "ui/buy/buy_text.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage {

SpaceChart::SpaceChart(QWidget* parent) : ReadChart(parent) { changed(); }

void SpaceChart::setCapacity(const std::optional<PoolCapacity>& capacity, double ceiling,
                             const std::string& what) {
    const bool other = what != what_;
    what_ = what;
    ceiling_ = ceiling > 0 && ceiling <= 1 ? ceiling : 1;
    capacity_ = capacity.value_or(PoolCapacity{});
    steps_ = capacity ? capacity_steps(capacity_, ceiling_) : std::vector<CapacityStep>{};
    changed(other);
}

QString SpaceChart::title() const {
    return hasData() ? BuyText::spaceTitle(capacity_, ceiling_, prefixes())
                     : tr("Where the space goes");
}

QString SpaceChart::summary() const {
    QStringList words;
    for (const CapacityStep& step : steps_) words << BuyText::step(step, ceiling_, prefixes());
    return words.isEmpty() ? tr("Nothing computed yet.") : words.join(u' ');
}

BarRows SpaceChart::rowsFor(double width, const QFont& font) const {
    std::vector<BarRow> rows;
    for (const CapacityStep& step : steps_) {
        BarRow row;
        row.name = BuyText::stepName(step.what, ceiling_);
        if (step.what == CapacityStep::What::labels)
            row.value = Words::both(step.left_bytes, prefixes());
        else
            row.value = tr("%1 %2", "sign, size")
                            .arg(step.taken_bytes < 0 ? QChar(u'+') : QChar(0x2212),
                                 Words::both(std::abs(step.taken_bytes), prefixes()));
        rows.push_back(row);
    }
    if (!steps_.empty()) {
        BarRow yours;
        yours.name = tr("Yours");
        yours.value = Words::both(steps_.back().left_bytes, prefixes());
        yours.bold = true;
        rows.push_back(yours);
    }
    return placed_rows(std::move(rows), ring_room, width - 2 * ring_room, ring_room, font);
}

int SpaceChart::heightForWidth(int width) const {
    return static_cast<int>(std::ceil(rowsFor(width, font()).bottom + ring_room));
}

std::vector<ReadChart::Reading> SpaceChart::readings() const {
    std::vector<Reading> all;
    const BarRows placed = rowsFor(width(), font());
    for (std::size_t i = 0; i < placed.rows.size(); ++i) {
        const QPointF at(placed.rows[i].bar.left(), placed.rows[i].bar.center().y());
        if (i < steps_.size())
            all.push_back({at, BuyText::step(steps_[i], ceiling_, prefixes())});
        else
            all.push_back({at, tr("Yours, below the ceiling: %1, %2 of what the labels say.")
                                   .arg(Words::both(steps_.back().left_bytes, prefixes()),
                                        Words::percent(steps_.back().left_bytes /
                                                       std::max(1.0, capacity_.label_bytes)))});
    }
    return all;
}

int SpaceChart::nearest(const QPointF& point) const {
    const BarRows placed = rowsFor(width(), font());
    for (std::size_t i = 0; i < placed.rows.size(); ++i)
        if (placed.rows[i].place.contains(point)) return static_cast<int>(i);
    return -1;
}

void SpaceChart::drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                             const QFont& font) const {
    if (!hasData()) return;
    const BarRows placed = rowsFor(size.width(), font);
    const QFont bold = scaled(font, 1, QFont::DemiBold);
    double top = 1;
    for (const CapacityStep& step : steps_)
        top = std::max({top, step.left_bytes, step.left_bytes + step.taken_bytes});
    for (std::size_t i = 0; i < placed.rows.size(); ++i) {
        const BarRow& row = placed.rows[i];
        const bool yours = i >= steps_.size();
        const CapacityStep& step = yours ? steps_.back() : steps_[i];
        const double per_byte = row.bar.width() / top;
        const double before = yours ? step.left_bytes : step.left_bytes + step.taken_bytes;
        // What a step adds lies beyond what was there before it.
        const double kept = std::min(step.left_bytes, before);
        QRectF left = row.bar, taken = row.bar;
        left.setWidth(std::max(1.0, kept * per_byte));
        taken.setLeft(left.right());
        taken.setRight(row.bar.left() + std::max(before, step.left_bytes) * per_byte);
        painter.setPen(Qt::NoPen);
        painter.setBrush(yours ? theme.median : mixed(theme.surface, theme.median, 0.38));
        painter.drawRect(left);
        if (!yours && taken.width() > 0.2) {
            const QColor ink = step.taken_bytes < 0 ? theme.median : theme.edge;
            painter.setPen(QPen(ink, 1));
            painter.setBrush(Qt::NoBrush);
            const QRectF inner = taken.adjusted(0, 0.5, -0.5, -0.5);
            painter.drawRect(inner);
            if (inner.width() > 3) hatch(painter, inner, ink, 6, 1.2);
        }
        painter.setPen(theme.ink);
        painter.setFont(row.bold ? bold : font);
        const int wrap = placed.beside ? 0 : Qt::TextWordWrap;
        painter.drawText(row.name_place, Qt::AlignLeft | Qt::AlignVCenter | wrap, row.name);
        const bool under = row.value_place.top() > row.name_place.top() + 1;
        painter.drawText(row.value_place,
                         (under ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter | wrap,
                         row.value);
    }
}

}  // namespace ullage
