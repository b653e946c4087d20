// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The only chart view of the program. Internal to ui/charts.
///
/// Qt 6.4's own view ends the program when clicked where no item lies (QTBUG-118669) and swallows
/// the wheel so that a page does not scroll (QTBUG-119712); here mouse and wheel are handled
/// without it. Mouse: press or drag moves the date reader; Shift or the middle button drags the
/// dates; Ctrl and wheel zooms about the pointer; double click on a date asks for an event there. Keys: Left, Right, Page
/// Up, Page Down, Home, End move the reader; + − 0 zoom; Ctrl+Left, Ctrl+Right drag the dates.

#include <QtCharts/QChartView>

#include <functional>

namespace ullage {

class FillPlot;

class FillView : public QChartView {
    Q_OBJECT

public:
    FillView(FillPlot* plot, QWidget* parent);

    /// Text of the hover tip at a computed date.
    std::function<QString(int index)> tip;

    /// Its minimum: it takes what a page leaves, where a graphics view would wish for a screenful.
    QSize sizeHint() const override { return minimumSize(); }

signals:
    void readerMoved(int index);
    void laidOut();
    void dateDoubleClicked(double day);  ///< from as_of, within the dates shown

public:
    void showAllDates();

protected:
    bool viewportEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    void read(double x);
    void zoom(double factor, double about_day);
    void pan(double days);
    void step(int by);

    FillPlot* plot_;
    enum class Drag { none, reader, dates } drag_ = Drag::none;
    double drag_x_ = 0;
};

}  // namespace ullage
