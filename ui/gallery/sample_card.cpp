// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/gallery/sample_card.h"

#include "ui/theme/theme.h"

#include <QFontMetricsF>
#include <QPainter>

#include <cmath>

namespace ullage::ui {

namespace {

QFont nameFont(const QFont& font) { return scaled(font, 1.0, QFont::DemiBold); }
QFont smallFont(const QFont& font) { return scaled(font, 0.92); }

}  // namespace

SampleCard::SampleCard(const QString& name, const QString& shows, QWidget* parent)
    : DrawnButton(parent), shows_(shows) {
    setText(name);
    setAccessibleName(name);
    setAccessibleDescription(shows);
    beCard();
}

void SampleCard::setPicture(const SamplePicture& picture) {
    picture_ = picture;
    setToolTip(picture.words);
    setAccessibleDescription(picture.words.isEmpty() ? shows_ : shows_ + QLatin1Char(' ') + picture.words);
    update();
}

int SampleCard::leastWidth(const QFont& font) {
    return static_cast<int>(std::ceil(QFontMetricsF(font).averageCharWidth() * 30));
}

SampleCard::Places SampleCard::placesFor(double width) const {
    Places places;
    const double em = QFontMetricsF(font()).height();
    const double pad = std::round(em * 0.7);
    const double inner = std::max(1.0, width - 2 * pad);
    double y = pad;
    places.picture = QRectF(pad, y, inner, std::round(em * 3.2));
    y = places.picture.bottom() + em * 0.5;
    places.name = QRectF(pad, y, inner, wrapped_height(text(), inner, nameFont(font())));
    y = places.name.bottom() + em * 0.2;
    places.shows = QRectF(pad, y, inner, shows_.isEmpty() ? 0 : wrapped_height(shows_, inner, smallFont(font())));
    places.height = places.shows.bottom() + pad;
    return places;
}

QSize SampleCard::sizeHint() const { return minimumSizeHint(); }

QSize SampleCard::minimumSizeHint() const {
    const int width = leastWidth(font());
    return {width, heightForWidth(width)};
}

int SampleCard::heightForWidth(int width) const { return static_cast<int>(std::ceil(placesFor(width).height)); }

void SampleCard::paintEvent(QPaintEvent*) {
    const Theme theme = Theme::of(palette());
    const Places places = placesFor(width());
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    drawCard(painter, theme);
    drawPicture(painter, places.picture, picture_, theme);
    painter.setPen(theme.ink);
    painter.setFont(nameFont(font()));
    painter.drawText(places.name, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, text());
    painter.setFont(smallFont(font()));
    painter.setPen(theme.muted);
    painter.drawText(places.shows, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, shows_);
}

}  // namespace ullage::ui
