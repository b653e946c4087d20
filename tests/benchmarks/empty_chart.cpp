// SPDX-License-Identifier: GPL-3.0-or-later
// The least program with a Qt Charts window; ends once it is painted. start_speed measures against it.
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
        QMetaObject::invokeMethod(qApp, &QCoreApplication::quit, Qt::QueuedConnection);
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
