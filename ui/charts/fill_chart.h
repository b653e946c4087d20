// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// How full a box gets: the fan of futures, the middle forecast, what it is made of, the ceiling
/// and full lines, planned events, and a date to read. The front of ui/charts; Qt Charts stays
/// behind it.
///
/// The title says the answer. Every number can be read without the picture: as a sentence at the
/// read date, as a table, as tab separated text. "Now over the ceiling" and dates of passing come
/// from the outlook's first-passage days, never from where a band meets a line.

#include "core/outlook/outlook.h"
#include "core/units/quantity_text.h"
#include "ui/theme/chart_export.h"
#include "ui/theme/drawn_widget.h"

#include <QByteArray>
#include <QImage>
#include <QPointer>
#include <QWidget>

#include <memory>
#include <optional>
#include <utility>
#include <vector>

class QCheckBox;
class QDialog;
class QLabel;
class QPushButton;
class QSlider;
class QSpacerItem;

namespace ullage {

class FillPlot;
class FillTable;
class FillView;
struct Answer;

class FillChart : public QWidget {
    Q_OBJECT

public:
    explicit FillChart(QWidget* parent = nullptr);
    ~FillChart() override;

    /// Values are copied. Null or a box without points: nothing to show yet.
    void setBox(const BoxOutlook* box, double horizon_days, Day as_of);
    /// As FillPlot::setKept.
    void setKept(const BoxOutlook* kept, const QString& name);
    void setPrefixes(Prefixes prefixes);
    void setState(ShownState state);
    void setPartsShown(bool shown);
    /// Nearest computed date.
    void readAt(Day day);
    /// The date now read; empty without data.
    std::optional<Day> readDate() const;

    QString title() const;
    QString readout() const;  ///< the values at the read date, as a sentence
    QString tabSeparated() const;
    FillTable* table() const { return table_; }
    /// Title, chart and note as now shown, in this widget's palette and font.
    QImage renderImage(const QSize& size, qreal device_pixel_ratio) const;
    void paintTo(QPainter& painter, const QRectF& place, const QPalette& palette,
                 const QFont& font) const;

    QWidget* view() const;
    QRectF plotArea() const;
    std::vector<QRectF> labelBoxes() const;
    QStringList axisTexts() const;
    QStringList labelTexts() const;   ///< at the right edge
    QList<QPointF> fullLine() const;  ///< as drawn: days from as_of, shown unit
    QList<QPointF> ceilingLine() const;
    QList<QPointF> keptLine() const;
    QStringList markTips() const;  ///< of the marks above the plot
    /// Days from as_of, as by zooming.
    void setDayRange(double from, double to);

    /// The dates shown are fewer than all.
    bool isZoomed() const;
    QByteArray svg() const;  ///< the picture as SVG 1.2 Tiny
    /// Writes the picture, SVG if the name ends so, else PNG, or the numbers as comma-separated
    /// values. Returns an empty text, or a sentence that says why not.
    QString savePicture(const QString& path) const;
    QString saveNumbers(const QString& path) const;

signals:
    /// A date was double-clicked: something is to happen there.
    void eventWanted(ullage::Day day);

public slots:
    void showTable();
    void copyPicture() const;  ///< as PNG and as SVG, whichever is pasted
    void copyNumbers() const;
    void showAllDates();
    void choosePictureFile();
    void chooseNumbersFile();

protected:
    void changeEvent(QEvent* event) override;

private:
    void retheme();
    void tell();
    void showReading();
    void alignSlider();
    void setReader(int index);
    ExportPicture picture(const QSize& size) const;

    std::unique_ptr<FillPlot> plot_;
    FillView* view_ = nullptr;
    FillTable* table_ = nullptr;
    QLabel *title_ = nullptr, *note_ = nullptr;
    QWidget* body_ = nullptr;
    QSlider* slider_ = nullptr;
    QSpacerItem *slider_left_ = nullptr, *slider_right_ = nullptr;
    std::vector<std::pair<QLabel*, QLabel*>> readings_;  ///< caption, value
    QCheckBox* parts_ = nullptr;
    QPushButton *table_button_ = nullptr, *copy_button_ = nullptr, *all_dates_ = nullptr;
    QPointer<QDialog> table_dialog_;

    std::optional<BoxOutlook> box_, kept_;
    QString kept_name_;
    double horizon_ = 1;
    Day as_of_{};
    Prefixes prefixes_ = Prefixes::decimal;
    ShownState state_ = ShownState::nothing;
    bool retheming_ = false;
};

/// What a picture may show beside the box as it is forecast.
struct FillExtras {
    const BoxOutlook* kept = nullptr;               ///< as FillPlot::setKept
    QString kept_name;
    std::optional<std::pair<double, double>> days;  ///< shown, from as_of; empty: all
};

/// Title, chart and note of one box onto any painter.
void paint_fill(QPainter& painter, const QRectF& place, const BoxOutlook& box, double horizon_days,
                Day as_of, Prefixes prefixes, bool parts, const QPalette& palette,
                const QFont& font, const FillExtras& extras = {});

/// One PNG a box, 1200 × 700, light colours, into `folder` (made if missing), named after the box.
/// Needs a QApplication but no display. `written` (may be null) takes the paths. False if a file
/// could not be written whole; those before it stay.
bool writeFillPictures(const Answer& answer, const QString& folder, QStringList* written);

}  // namespace ullage
