// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/theme.h"

#include <QFontMetricsF>
#include <QWidget>

#include <algorithm>
#include <array>
#include <cmath>

namespace ullage {
namespace {

constexpr double text_ratio = 4.5;   // WCAG 2.2, 1.4.3
constexpr double shape_ratio = 3.0;  // WCAG 2.2, 1.4.11

double linear(double channel) {
    return channel <= 0.04045 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

double luminance(const QColor& c) {
    return 0.2126 * linear(c.redF()) + 0.7152 * linear(c.greenF()) + 0.0722 * linear(c.blueF());
}

QColor translucent(QColor c, double alpha) {
    c.setAlphaF(static_cast<float>(alpha));
    return c;
}

}  // namespace

double contrast(const QColor& a, const QColor& b) {
    const double la = luminance(a), lb = luminance(b);
    return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

QColor mixed(const QColor& a, const QColor& b, double share) {
    const auto blend = [share](float x, float y) {
        return static_cast<float>(std::clamp(x + (y - x) * share, 0.0, 1.0));
    };
    return QColor::fromRgbF(blend(a.redF(), b.redF()), blend(a.greenF(), b.greenF()),
                            blend(a.blueF(), b.blueF()));
}

QColor legible(const QColor& wanted, const QColor& on, double ratio) {
    const QColor target =
        contrast(Qt::black, on) >= contrast(Qt::white, on) ? QColor(Qt::black) : QColor(Qt::white);
    constexpr int steps = 50;
    for (int i = 0; i <= steps; ++i) {
        // Rounded to 8 bits a channel, as it will be drawn.
        const QColor tried(mixed(wanted, target, static_cast<double>(i) / steps).rgb());
        if (contrast(tried, on) >= ratio) return tried;
    }
    return target;
}

namespace {

Theme theme_of(const QPalette& palette) {
    Theme t;
    t.dark = palette.color(QPalette::Window).lightness() < 128;
    const QColor base = palette.color(QPalette::Base);
    t.surface = (base.lightness() < 128) == t.dark ? base : palette.color(QPalette::Window);

    const QColor blue = t.dark ? QColor(0x56, 0xB4, 0xE9) : QColor(0x00, 0x72, 0xB2);
    const QColor vermillion = t.dark ? QColor(0xFF, 0x8A, 0x3D) : QColor(0xB3, 0x47, 0x00);
    const QColor ink = t.dark ? QColor(0xEE, 0xEE, 0xEE) : QColor(0x1A, 0x1C, 0x1E);

    t.ink = legible(ink, t.surface, 7.0);
    t.rule = mixed(t.surface, t.ink, t.dark ? 0.20 : 0.14);
    t.grid = mixed(t.surface, t.ink, t.dark ? 0.15 : 0.10);
    t.edge = legible(mixed(t.surface, t.ink, 0.45), t.surface, shape_ratio);
    t.chosen = mixed(t.surface, legible(blue, t.surface, text_ratio), t.dark ? 0.14 : 0.06);
    // Text stands on the surface and on what is chosen.
    const auto text = [&t](const QColor& wanted, double ratio = text_ratio) {
        return legible(legible(wanted, t.surface, ratio), t.chosen, text_ratio);
    };
    t.muted = text(mixed(t.ink, t.surface, 0.34), text_ratio + 0.4);
    t.median = text(blue);
    t.band_outer = translucent(t.median, t.dark ? 0.20 : 0.18);
    t.band_inner = translucent(t.median, t.dark ? 0.24 : 0.22);
    t.ceiling = t.ink;
    t.full = text(vermillion);
    t.on_full = legible(t.surface, t.full, text_ratio);
    t.live = translucent(t.ink, t.dark ? 0.06 : 0.035);
    t.held = translucent(t.ink, t.dark ? 0.13 : 0.085);
    t.other = translucent(t.ink, t.dark ? 0.20 : 0.14);
    t.open = mixed(t.surface, t.median, t.dark ? 0.26 : 0.17);
    t.focus = legible(palette.color(QPalette::Highlight), t.surface, shape_ratio);
    return t;
}

}  // namespace

Theme Theme::of(const QPalette& palette) {
    // Each control asks at each picture, and there are few palettes. Only the window's thread draws.
    struct Known {
        qint64 key = -1;
        Theme theme;
    };
    constexpr std::size_t most = 8;
    thread_local std::array<Known, most> known;
    thread_local std::size_t next = 0;
    const qint64 key = palette.cacheKey();
    for (const Known& each : known)
        if (each.key == key) return each.theme;
    Known& place = known[next++ % most];
    place = {key, theme_of(palette)};
    return place.theme;
}

Theme faded(const Theme& theme) {
    constexpr double left = 0.45;
    Theme t = theme;
    for (QColor* c : {&t.ink, &t.muted, &t.rule, &t.grid, &t.edge, &t.median, &t.ceiling, &t.full,
                      &t.on_full, &t.open, &t.chosen})
        *c = mixed(t.surface, *c, left);
    for (QColor* c : {&t.band_outer, &t.band_inner, &t.live, &t.held, &t.other})
        c->setAlphaF(static_cast<float>(c->alphaF() * left));
    return t;
}

QFont scaled(const QFont& font, double factor, QFont::Weight weight) {
    QFont f = font;
    if (font.pixelSize() > 0)
        f.setPixelSize(std::max(1, static_cast<int>(std::lround(font.pixelSize() * factor))));
    else
        f.setPointSizeF(std::max(1.0, font.pointSizeF() * factor));
    f.setWeight(weight);
    return f;
}

double wrapped_height(const QString& text, double width, const QFont& font) {
    return QFontMetricsF(font)
        .boundingRect(QRectF(0, 0, std::max(1.0, width), 1e6), Qt::TextWordWrap, text)
        .height();
}

void set_text_colour(QWidget& label, const QColor& colour) {
    QPalette own;  // with only these roles set, the others are inherited
    own.setColor(QPalette::WindowText, colour);
    own.setColor(QPalette::Text, colour);  // the role of text on a Base background
    label.setPalette(own);
}

namespace {

QPalette palette_of(const QColor& window, const QColor& base, const QColor& alternate,
                    const QColor& text, const QColor& button, const QColor& accent,
                    const QColor& on_accent) {
    QPalette p(text, button, button.lighter(150), button.darker(170), button.darker(130), text,
               QColor(Qt::white), base, window);
    p.setColor(QPalette::AlternateBase, alternate);
    p.setColor(QPalette::ToolTipBase, base);
    p.setColor(QPalette::ToolTipText, text);
    p.setColor(QPalette::PlaceholderText, mixed(text, base, 0.4));
    p.setColor(QPalette::Highlight, accent);
    p.setColor(QPalette::HighlightedText, on_accent);
    p.setColor(QPalette::Link, accent);
    p.setColor(QPalette::LinkVisited, mixed(accent, text, 0.3));
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
        p.setColor(QPalette::Disabled, role, mixed(text, window, 0.5));
    return p;
}

}  // namespace

QPalette light_palette() {
    return palette_of(QColor(0xF3, 0xF4, 0xF5), QColor(0xFF, 0xFF, 0xFF), QColor(0xF6, 0xF7, 0xF8),
                      QColor(0x1A, 0x1C, 0x1E), QColor(0xEC, 0xEE, 0xF0), QColor(0x00, 0x72, 0xB2),
                      QColor(0xFF, 0xFF, 0xFF));
}

QPalette dark_palette() {
    return palette_of(QColor(0x23, 0x26, 0x29), QColor(0x1A, 0x1C, 0x1E), QColor(0x20, 0x23, 0x26),
                      QColor(0xEE, 0xEE, 0xEE), QColor(0x2E, 0x32, 0x36), QColor(0x56, 0xB4, 0xE9),
                      QColor(0x10, 0x12, 0x14));
}

}  // namespace ullage
