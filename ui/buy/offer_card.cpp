// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/buy/offer_card.h"

#include "ui/buy/standing_mark.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

using Role = OfferGeometry::Text::Role;

QFont font_of(Role role, const QFont& font) {
    switch (role) {
        case Role::name:
            return scaled(font, 1.15, QFont::DemiBold);
        case Role::status:
        case Role::value:
            return scaled(font, 1, QFont::DemiBold);
        case Role::lasting:
            return font;
        case Role::label:
        case Role::note:
            break;
    }
    return scaled(font, 0.9);
}

// Price filled, energy hatched, replacement hollow.
void draw_cost(QPainter& painter, const QRectF& place, std::size_t part, const Theme& theme) {
    if (place.width() < 1) return;
    const QRectF inner = place.adjusted(0.5, 0.5, -0.5, -0.5);
    painter.setPen(QPen(theme.median, 1));
    painter.setBrush(part == 0 ? QBrush(theme.median) : QBrush(theme.surface));
    painter.drawRect(inner);
    if (part == 1) hatch(painter, inner, theme.median, 5);
}

}  // namespace

OfferCard::OfferCard(QWidget* parent) : DrawnButton(parent) { beCard(); }

void OfferCard::setOffer(const Answer& answer, const OfferOutlook& offer, Prefixes prefixes,
                         double dearest) {
    text_ = BuyText::offer(answer, offer, prefixes);
    standing_ = standing_of(offer);
    // A future counts as lasting if the middle of its twentieth lasts.
    lasting_ = static_cast<int>(std::lround(
        20 * std::clamp(std::isfinite(offer.chance_of_lasting) ? offer.chance_of_lasting : 0.0, 0.0,
                        1.0)));
    const double top = std::max(1e-9, dearest);
    const auto part = [&](double cost) { return std::clamp(cost / top, 0.0, 1.0); };
    cost_ = {part(offer.price), part(offer.energy_cost), part(offer.replacement_cost)};
    setAccessibleName(text_.name);
    setAccessibleDescription(text_.description());
    setToolTip(tr("Open this offer"));
    updateGeometry();
    update();
}

void OfferCard::setState(ShownState state) {
    if (state == state_) return;
    state_ = state;
    update();
}

int OfferCard::leastWidth(const QFont& font) {
    return static_cast<int>(std::ceil(QFontMetricsF(font).height() * 13.5));
}

OfferGeometry OfferCard::geometryFor(double width) const {
    OfferGeometry g;
    const double em = QFontMetricsF(font()).height();
    const double pad = std::round(em * 0.75), inner = std::max(1.0, width - 2 * pad);
    double y = pad;
    const auto put = [&](Role role, const QString& words, double indent = 0) {
        if (words.isEmpty()) return;
        const double h = wrapped_height(words, inner - indent, font_of(role, font()));
        g.texts.push_back({role, words, QRectF(pad + indent, y, inner - indent, h)});
        y += h;
    };
    put(Role::name, text_.name);
    put(Role::note, text_.what);
    y += em * 0.45;
    const double side = std::round(em * 0.95);
    g.shape = QRectF(pad, y + std::max(0.0, (em - side) / 2), side, side);
    put(Role::status, text_.status, side + em * 0.45);
    put(Role::note, text_.outdone);
    y += em * 0.5;

    // Marks in fives, all in one row where each is wide enough to be counted, else in two.
    const auto in_rows = [&](int rows) {
        const int in_row = 20 / rows;
        const double gaps = in_row / 5 - 1;
        return std::min(em * 0.72, inner / (in_row + gaps * 0.6));
    };
    const int rows = in_rows(1) >= 7 ? 1 : 2;
    const double pitch = in_rows(rows);
    for (int i = 0; i < 20; ++i) {
        const int in_row = 20 / rows, column = i % in_row;
        g.marks[static_cast<std::size_t>(i)] =
            QRectF(pad + pitch * (column + (column / 5) * 0.6), y + pitch * (i / in_row) * 1.15,
                   pitch * 0.82, pitch * 0.82);
    }
    y += pitch * (1.15 * (rows - 1) + 0.82) + em * 0.2;
    put(Role::lasting, Words::sentence(text_.lasting));

    for (std::size_t r = 0; r < text_.rows.size(); ++r) {
        y += em * 0.5;
        put(Role::label, text_.rows[r].label);
        put(Role::value, text_.rows[r].value);
        if (r == 1) {
            const double bar = std::round(em * 0.55);
            y += em * 0.15;
            double x = pad;
            for (std::size_t k = 0; k < cost_.size(); ++k) {
                g.cost_bar[k] = QRectF(x, y, inner * cost_[k], bar);
                x = std::min(pad + inner, x + inner * cost_[k]);
            }
            y += bar + em * 0.2;
            for (std::size_t k = 0;
                 k < cost_.size() && k < static_cast<std::size_t>(text_.cost.size()); ++k) {
                g.cost_swatch[k] = QRectF(pad, y + em * 0.12, em * 1.1, em * 0.62);
                put(Role::note, Words::sentence(text_.cost[static_cast<qsizetype>(k)]), em * 1.5);
            }
        }
        put(Role::note, text_.rows[r].note);
    }
    if (!text_.assumptions.isEmpty()) {
        y += em * 0.5;
        put(Role::label, tr("Taken for granted"));
        for (const QString& assumption : text_.assumptions) put(Role::note, assumption);
    }
    g.height = y + pad;
    return g;
}

int OfferCard::heightForWidth(int width) const {
    return static_cast<int>(std::ceil(geometryFor(width).height));
}

QSize OfferCard::sizeHint() const {
    return {leastWidth(font()), heightForWidth(std::max(leastWidth(font()), width()))};
}

QSize OfferCard::minimumSizeHint() const {
    return {leastWidth(font()), heightForWidth(std::max(leastWidth(font()), width()))};
}

void OfferCard::paintEvent(QPaintEvent*) {
    const Theme theme = Theme::of(palette());
    const OfferGeometry g = geometryFor(width());
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    drawCard(painter, theme);
    if (out_of_date(state_)) painter.setOpacity(stale_opacity);
    draw_standing(painter, g.shape, standing_, theme);
    for (const OfferGeometry::Text& text : g.texts) {
        painter.setFont(font_of(text.role, font()));
        const bool quiet = text.role == Role::label || text.role == Role::note;
        painter.setPen(quiet ? theme.muted : theme.ink);
        painter.drawText(text.place, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, text.text);
    }
    for (int i = 0; i < 20; ++i) {
        const QRectF mark = g.marks[static_cast<std::size_t>(i)];
        if (i < lasting_) {
            painter.setPen(Qt::NoPen);
            painter.setBrush(theme.median);
            painter.drawEllipse(mark);
        } else {
            const double in = mark.width() * 0.14;
            const QRectF cross = mark.adjusted(in, in, -in, -in);
            painter.setPen(QPen(theme.full, 1.6, Qt::SolidLine, Qt::RoundCap));
            painter.drawLine(cross.topLeft(), cross.bottomRight());
            painter.drawLine(cross.topRight(), cross.bottomLeft());
        }
    }
    for (std::size_t k = 0; k < g.cost_bar.size(); ++k) {
        draw_cost(painter, g.cost_bar[k], k, theme);
        draw_cost(painter, g.cost_swatch[k], k, theme);
    }
}

}  // namespace ullage
