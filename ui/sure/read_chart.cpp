// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sure/read_chart.h"

#include "ui/theme/theme.h"

#include <QFontMetricsF>
#include <QKeyEvent>
#include <QLineF>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>

namespace ullage {

ReadChart::ReadChart(QWidget* parent) : DrawnWidget(parent) {
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    setMouseTracking(true);
}

void ReadChart::setPrefixes(Prefixes prefixes) {
    if (prefixes == prefixes_) return;
    prefixes_ = prefixes;
    changed();
}

void ReadChart::changed(bool other) {
    pointed_ = -1;
    if (other || kept_ >= static_cast<int>(readings().size())) kept_ = -1;
    tell();
    updateGeometry();
    update();
    emit readoutChanged();
}

int ReadChart::nearest(const QPointF& point) const {
    const double reach = 4 * QFontMetricsF(font()).height();
    const auto all = readings();
    int best = -1;
    double least = reach;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const double distance = QLineF(all[i].at, point).length();
        if (distance < least) {
            least = distance;
            best = static_cast<int>(i);
        }
    }
    return best;
}

void ReadChart::read(int index) {
    kept_ = index < static_cast<int>(readings().size()) ? std::max(-1, index) : -1;
    pointed_ = -1;
    tell();
    update();
    emit readoutChanged();
}

QString ReadChart::readout() const {
    const auto all = readings();
    return shown() >= 0 && shown() < static_cast<int>(all.size())
               ? all[static_cast<std::size_t>(shown())].words
               : QString();
}

void ReadChart::tell() {
    QStringList words;
    if (const QString state_text = state_words(state()); !state_text.isEmpty())
        words << state_text + u'.';
    words << summary();
    const auto all = readings();
    if (kept_ >= 0 && kept_ < static_cast<int>(all.size()))
        words << tr("Read: %1").arg(all[static_cast<std::size_t>(kept_)].words);
    describe(title(), words.join(u' '));
}

void ReadChart::paintEvent(QPaintEvent* event) {
    DrawnWidget::paintEvent(event);
    const auto all = readings();
    if (shown() < 0 || shown() >= static_cast<int>(all.size())) return;
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Theme theme = Theme::of(palette());
    const double radius = QFontMetricsF(font()).height() * 0.45;
    const QPointF at = all[static_cast<std::size_t>(shown())].at;
    if (!isInSight(at)) return;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(theme.surface, 4));
    painter.drawEllipse(at, radius, radius);
    painter.setPen(QPen(theme.focus, 2));
    painter.drawEllipse(at, radius, radius);
}

void ReadChart::mouseMoveEvent(QMouseEvent* event) {
    const int index = nearest(event->position());
    if (index == pointed_) return;
    pointed_ = index;
    update();
    emit readoutChanged();
}

void ReadChart::mousePressEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton) read(nearest(event->position()));
    DrawnWidget::mousePressEvent(event);
}

void ReadChart::mouseDoubleClickEvent(QMouseEvent* event) {
    const int index = nearest(event->position());
    if (event->button() == Qt::LeftButton && index >= 0) emit entered(index);
}

void ReadChart::leaveEvent(QEvent* event) {
    DrawnWidget::leaveEvent(event);
    if (pointed_ < 0) return;
    pointed_ = -1;
    update();
    emit readoutChanged();
}

void ReadChart::keyPressEvent(QKeyEvent* event) {
    const int last = static_cast<int>(readings().size()) - 1;
    if (last < 0) {
        event->ignore();
        return;
    }
    switch (event->key()) {
        case Qt::Key_Left:
        case Qt::Key_Up:
            read(kept_ < 0 ? last : std::max(0, kept_ - 1));
            break;
        case Qt::Key_Right:
        case Qt::Key_Down:
            read(std::min(last, kept_ + 1));
            break;
        case Qt::Key_Home:
            read(0);
            break;
        case Qt::Key_End:
            read(last);
            break;
        case Qt::Key_Return:
        case Qt::Key_Enter:
            if (kept_ < 0) {
                event->ignore();
                return;
            }
            emit entered(kept_);
            break;
        case Qt::Key_Escape:
            if (kept_ < 0) {
                event->ignore();
                return;
            }
            read(-1);
            break;
        default:
            event->ignore();
            return;
    }
    event->accept();
}

}  // namespace ullage
