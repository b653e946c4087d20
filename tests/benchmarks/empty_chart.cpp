// SPDX-License-Identifier: GPL-3.0-or-later
// The least program with a Qt Charts window; says so once it is painted, and ends. start_speed measures against it.
#include "tests/benchmarks/say_painted.h"

#include <QApplication>
#include <QtCharts/QChart>
#include <QtCharts/QChartView>

namespace {

class EndsWhenPainted : public QChartView {
public:
    using QChartView::QChartView;

protected:
    void paintEvent(QPaintEvent* event) override {
        QChartView::paintEvent(event);
        QMetaObject::invokeMethod(qApp, say_painted_and_quit, Qt::QueuedConnection);
    }
};

}  // namespace

int main(int argc, char** argv) {
    QApplication application(argc, argv);
    EndsWhenPainted view(new QChart);
    view.resize(1280, 800);
    view.show();
    return QApplication::exec();
}
