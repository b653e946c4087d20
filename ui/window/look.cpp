// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/look.h"

#include "ui/theme/theme.h"
#include "ui/window/outlined_checks.h"

#include <QApplication>
#include <QEvent>
#include <QFontMetrics>
#include <QLabel>
#include <QLineEdit>
#include <QPainter>
#include <QStyle>
#include <QStyleOptionViewItem>

#include <algorithm>

namespace ullage::ui {

namespace {

constexpr double text_ratio = 4.5;  ///< WCAG 2.2, 1.4.3

/// Keeps its colour made from the palette around it.
class QuietLabel : public QLabel {
public:
    QuietLabel(const QString& text, QWidget* parent) : QLabel(text, parent) { colour(); }

protected:
    void showEvent(QShowEvent* event) override {
        colour();  // one that has not been shown before is not told of another palette
        QLabel::showEvent(event);
    }
    void changeEvent(QEvent* event) override {
        QLabel::changeEvent(event);
        if (event->type() == QEvent::PaletteChange) colour();
    }

private:
    void colour() {
        const QColor quiet = quietColour(QApplication::palette());
        if (palette().color(QPalette::WindowText) == quiet) return;
        QPalette colours;
        colours.setColor(QPalette::WindowText, quiet);
        setPalette(colours);
    }
};

}  // namespace

QColor faultColour(const QPalette& palette) {
    return legible(Theme::of(palette).full, palette.color(QPalette::Window), text_ratio);
}

QColor quietColour(const QPalette& palette) {
    const QColor ink = palette.color(QPalette::WindowText);
    const QColor ground = palette.color(QPalette::Window);
    return legible(mixed(ink, ground, 0.35), ground, text_ratio);
}

void markFaulty(QWidget* control, bool faulty) {
    if (!qobject_cast<QLineEdit*>(control)) return;
    QPalette colours;
    if (faulty) {
        const QPalette base = QApplication::palette();
        colours.setColor(QPalette::Text,
                         legible(Theme::of(base).full, base.color(QPalette::Base), text_ratio));
    }
    control->setPalette(colours);
}

QLabel* headingLabel(const QString& text, double factor, QWidget* parent) {
    auto* label = new QLabel(text, parent);
    label->setFont(scaled(label->font(), factor, QFont::DemiBold));
    label->setTextFormat(Qt::PlainText);
    return label;
}

QLabel* quietLabel(const QString& text, QWidget* parent) {
    auto* label = new QuietLabel(text, parent);
    label->setWordWrap(true);
    return label;
}

void drawRow(QPainter& painter, const QStyleOptionViewItem& row, const Theme& theme) {
    constexpr int upright = 3;
    if (row.state & QStyle::State_Selected) {
        painter.fillRect(row.rect, theme.chosen);
        painter.fillRect(row.rect.left(), row.rect.top(), upright, row.rect.height(), theme.median);
    } else if (row.state & QStyle::State_MouseOver) {
        painter.fillRect(row.rect, mixed(row.palette.color(QPalette::Base), theme.ink, 0.05));
    }
    if (row.state & QStyle::State_HasFocus) {
        painter.save();
        painter.setPen(QPen(theme.focus, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(row.rect.adjusted(1, 1, -1, -1));
        painter.restore();
    }
}

int ems(const QWidget* widget, double widths) {
    return static_cast<int>(widget->fontMetrics().horizontalAdvance(QLatin1Char('m')) * widths);
}

int controlHeight(const QWidget* widget) {
    return std::max(24, widget->fontMetrics().height() + 10);
}

void applyTheme(ThemeChoice choice) {
    if (!qobject_cast<OutlinedChecks*>(QApplication::style())) QApplication::setStyle(new OutlinedChecks);
    switch (choice) {
        case ThemeChoice::system:
            QApplication::setPalette(QPalette());
            break;
        case ThemeChoice::light:
            QApplication::setPalette(light_palette());
            break;
        case ThemeChoice::dark:
            QApplication::setPalette(dark_palette());
            break;
    }
}

}  // namespace ullage::ui
