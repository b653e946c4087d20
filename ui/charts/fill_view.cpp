// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/charts/fill_view.h"

#include "ui/charts/fill_plot.h"
#include "ui/theme/theme.h"

#include <QGraphicsItem>
#include <QGraphicsScene>
#include <QHelpEvent>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

namespace ullage {

FillView::FillView(FillPlot* plot, QWidget* parent)
    : QChartView(plot->chart(), parent), plot_(plot) {
    setFrameShape(QFrame::NoFrame);
    setRenderHint(QPainter::Antialiasing);
    // An answer changes most of the items at once: to find which is dearer than to draw what lies about them. The
    // reader alone is a narrow strip.
    setViewportUpdateMode(QGraphicsView::BoundingRectViewportUpdate);
    scene()->setItemIndexMethod(QGraphicsScene::NoIndex);
    setFocusPolicy(Qt::StrongFocus);
    setRubberBand(QChartView::NoRubberBand);
    setMouseTracking(true);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setContextMenuPolicy(Qt::ActionsContextMenu);
    viewport()->setCursor(Qt::CrossCursor);
}

bool FillView::viewportEvent(QEvent* event) {
    if (event->type() == QEvent::ToolTip) {
        const auto* help = static_cast<QHelpEvent*>(event);
        QString text;
        for (const QGraphicsItem* item : items(help->pos()))
            if (!item->toolTip().isEmpty()) {
                text = item->toolTip();
                break;
            }
        if (text.isEmpty() && tip && plot_->plotArea().contains(help->pos())) {
            const int index = plot_->nearest(plot_->dayAt(help->pos().x()));
            if (index >= 0) text = tip(index);
        }
        if (text.isEmpty())
            QToolTip::hideText();
        else
            QToolTip::showText(help->globalPos(), text, viewport());
        return true;
    }
    return QChartView::viewportEvent(event);
}

void FillView::resizeEvent(QResizeEvent* event) {
    QChartView::resizeEvent(event);
    plot_->layOut(size());
    emit laidOut();
}

void FillView::paintEvent(QPaintEvent* event) {
    QChartView::paintEvent(event);
    if (!hasFocus()) return;
    QPainter painter(viewport());
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(Theme::of(palette()).focus, 2));
    painter.drawRoundedRect(plot_->plotArea().adjusted(-3, -3, 3, 3), 4, 4);
}

void FillView::read(double x) {
    const int index = plot_->nearest(plot_->dayAt(x));
    if (index >= 0) emit readerMoved(index);
}

void FillView::mousePressEvent(QMouseEvent* event) {
    const bool pans = event->button() == Qt::MiddleButton ||
                      (event->button() == Qt::LeftButton && event->modifiers() & Qt::ShiftModifier);
    if (pans) {
        drag_ = Drag::dates;
        drag_x_ = event->position().x();
    } else if (event->button() == Qt::LeftButton) {
        drag_ = Drag::reader;
        read(event->position().x());
    } else {
        event->ignore();
        return;
    }
    event->accept();
}

void FillView::mouseMoveEvent(QMouseEvent* event) {
    const double x = event->position().x();
    if (drag_ == Drag::reader) read(x);
    if (drag_ == Drag::dates && plot_->plotArea().width() > 0) {
        pan((drag_x_ - x) / plot_->plotArea().width() * (plot_->toDay() - plot_->fromDay()));
        drag_x_ = x;
    }
    event->accept();
}

void FillView::mouseReleaseEvent(QMouseEvent* event) {
    drag_ = Drag::none;
    event->accept();
}

void FillView::mouseDoubleClickEvent(QMouseEvent* event) {
    event->accept();
    if (event->button() == Qt::LeftButton && plot_->plotArea().contains(event->position()))
        emit dateDoubleClicked(plot_->dayAt(event->position().x()));
}

void FillView::showAllDates() {
    plot_->setDayRange(0, plot_->horizon());
    emit laidOut();
}

void FillView::wheelEvent(QWheelEvent* event) {
    if (!(event->modifiers() & Qt::ControlModifier) || event->angleDelta().y() == 0) {
        event->ignore();  // the page scrolls
        return;
    }
    zoom(std::pow(0.8, event->angleDelta().y() / 120.0), plot_->dayAt(event->position().x()));
    event->accept();
}

void FillView::zoom(double factor, double about) {
    const double from = about - (about - plot_->fromDay()) * factor;
    const double to = about + (plot_->toDay() - about) * factor;
    plot_->setDayRange(from, to);
    emit laidOut();
}

void FillView::pan(double days) {
    plot_->setDayRange(plot_->fromDay() + days, plot_->toDay() + days);
    emit laidOut();
}

void FillView::step(int by) {
    const int count = static_cast<int>(plot_->points().size());
    if (count == 0) return;
    const int index = std::clamp(plot_->reader() + by, 0, count - 1);
    const double day = plot_->dayOf(index);
    if (day < plot_->fromDay()) pan(day - plot_->fromDay());
    if (day > plot_->toDay()) pan(day - plot_->toDay());
    emit readerMoved(index);
}

void FillView::keyPressEvent(QKeyEvent* event) {
    const int count = static_cast<int>(plot_->points().size());
    const double length = plot_->toDay() - plot_->fromDay();
    const double middle = plot_->reader() >= 0 ? plot_->dayOf(plot_->reader())
                                               : (plot_->fromDay() + plot_->toDay()) / 2;
    const bool control = event->modifiers() & Qt::ControlModifier;
    switch (event->key()) {
        case Qt::Key_Left:
            if (control)
                pan(-length / 10);
            else
                step(-1);
            break;
        case Qt::Key_Right:
            if (control)
                pan(length / 10);
            else
                step(1);
            break;
        case Qt::Key_PageUp:
            step(13);
            break;  // a quarter of weekly points
        case Qt::Key_PageDown:
            step(-13);
            break;
        case Qt::Key_Home:
            step(-count);
            break;
        case Qt::Key_End:
            step(count);
            break;
        case Qt::Key_Plus:
        case Qt::Key_Equal:
            zoom(0.8, middle);
            break;
        case Qt::Key_Minus:
            zoom(1.25, middle);
            break;
        case Qt::Key_0:
            showAllDates();
            break;
        default:
            event->ignore();
            return;
    }
    event->accept();
}

void FillView::focusInEvent(QFocusEvent* event) {
    QChartView::focusInEvent(event);
    viewport()->update();
}

void FillView::focusOutEvent(QFocusEvent* event) {
    QChartView::focusOutEvent(event);
    viewport()->update();
}

}  // namespace ullage
