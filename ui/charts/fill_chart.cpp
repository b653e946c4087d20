// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/charts/fill_chart.h"

#include "core/findings/findings.h"
#include "ui/charts/fill_plot.h"
#include "ui/charts/fill_table.h"
#include "ui/charts/fill_text.h"
#include "ui/charts/fill_view.h"
#include "ui/charts/number_table.h"
#include "ui/theme/chart_export.h"
#include "ui/theme/theme.h"
#include "ui/theme/tile_layout.h"
#include "ui/theme/words.h"

#include <QAction>
#include <QApplication>
#include <QBuffer>
#include <QCheckBox>
#include <QClipboard>
#include <QDialog>
#include <QDir>
#include <QEvent>
#include <QFontMetricsF>
#include <QGraphicsScene>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPainter>
#include <QPushButton>
#include <QSaveFile>
#include <QSignalBlocker>
#include <QSlider>
#include <QSpacerItem>
#include <QStyle>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace ullage {

namespace {

constexpr QSize picture_size(1200, 700);  ///< logical pixels


}  // namespace

FillChart::FillChart(QWidget* parent) : QWidget(parent), plot_(std::make_unique<FillPlot>()) {
    table_ = new FillTable(this);

    title_ = new QLabel;
    title_->setObjectName(QStringLiteral("fillTitle"));
    title_->setWordWrap(true);
    title_->setTextFormat(Qt::PlainText);

    view_ = new FillView(plot_.get(), nullptr);
    view_->setObjectName(QStringLiteral("fillView"));
    view_->tip = [this](int index) {
        return box_ ? FillText::at(box_->fill[static_cast<std::size_t>(index)], *box_, prefixes_)
                    : QString();
    };

    slider_ = new QSlider(Qt::Horizontal);
    slider_->setObjectName(QStringLiteral("fillReader"));
    slider_->setAccessibleName(tr("Date to read"));
    slider_->setToolTip(tr("Drag to read any date"));
    slider_left_ = new QSpacerItem(0, 0, QSizePolicy::Fixed, QSizePolicy::Minimum);
    slider_right_ = new QSpacerItem(0, 0, QSizePolicy::Fixed, QSizePolicy::Minimum);
    auto* slider_row = new QHBoxLayout;
    slider_row->setSpacing(0);
    slider_row->addSpacerItem(slider_left_);
    slider_row->addWidget(slider_, 1);
    slider_row->addSpacerItem(slider_right_);

    auto* readings = new QWidget;
    auto* tiles = new TileLayout(90, 12, readings);
    tiles->setObjectName(QStringLiteral("readings"));
    for (const QString& caption : {tr("Read at"), tr("Middle forecast"), tr("8 in 10 futures"),
                                   tr("Live"), tr("Held by snapshots")}) {
        auto* tile = new QWidget;
        auto* column = new QVBoxLayout(tile);
        column->setContentsMargins(0, 0, 0, 0);
        column->setSpacing(1);
        auto* name = new QLabel(caption);
        auto* value = new QLabel;
        value->setTextFormat(Qt::PlainText);
        value->setTextInteractionFlags(Qt::TextSelectableByMouse);
        column->addWidget(name);
        column->addWidget(value);
        tiles->addWidget(tile);
        readings_.emplace_back(name, value);
    }

    note_ = new QLabel(FillText::bands_note());
    note_->setWordWrap(true);
    parts_ = new QCheckBox(tr("Live and &held"));
    parts_->setObjectName(QStringLiteral("fillParts"));
    parts_->setToolTip(tr("Show what the middle forecast is made of"));
    parts_->setChecked(true);
    table_button_ = new QPushButton;
    table_button_->setObjectName(QStringLiteral("fillTable"));
    table_button_->setText(tr("Show as table"));
    table_button_->setAutoDefault(false);
    copy_button_ = new QPushButton;
    copy_button_->setObjectName(QStringLiteral("fillCopy"));
    copy_button_->setText(tr("Copy"));
    copy_button_->setAutoDefault(false);

    all_dates_ = new QPushButton(tr("Show all dates"));
    all_dates_->setObjectName(QStringLiteral("fillAllDates"));
    all_dates_->setToolTip(tr("Undoes the zooming (0)"));
    all_dates_->setAutoDefault(false);
    all_dates_->hide();
    connect(all_dates_, &QPushButton::clicked, this, &FillChart::showAllDates);

    auto* picture = new QAction(tr("Copy as picture"), this);
    auto* picture_file = new QAction(tr("Save picture…"), this);
    auto* numbers_file = new QAction(tr("Export numbers…"), this);
    picture_file->setObjectName(QStringLiteral("fillSavePicture"));
    numbers_file->setObjectName(QStringLiteral("fillSaveNumbers"));
    auto* numbers = new QAction(tr("Copy numbers"), this);
    auto* as_table = new QAction(tr("Show as table"), this);
    as_table->setShortcut(QKeySequence(tr("Ctrl+T")));
    as_table->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    table_button_->setToolTip(tr("Every number of the chart (%1)")
                                  .arg(as_table->shortcut().toString(QKeySequence::NativeText)));
    auto* menu = new QMenu(copy_button_);
    menu->addAction(picture);
    menu->addAction(numbers);
    menu->addSeparator();
    menu->addAction(picture_file);
    menu->addAction(numbers_file);
    copy_button_->setMenu(menu);
    addAction(as_table);
    view_->addActions({as_table, picture, numbers, picture_file, numbers_file});
    connect(picture_file, &QAction::triggered, this, &FillChart::choosePictureFile);
    connect(numbers_file, &QAction::triggered, this, &FillChart::chooseNumbersFile);
    connect(picture, &QAction::triggered, this, &FillChart::copyPicture);
    connect(numbers, &QAction::triggered, this, &FillChart::copyNumbers);
    connect(as_table, &QAction::triggered, this, &FillChart::showTable);
    connect(table_button_, &QPushButton::clicked, this, &FillChart::showTable);
    connect(parts_, &QCheckBox::toggled, this, &FillChart::setPartsShown);

    auto* foot = new QHBoxLayout;
    foot->setSpacing(8);
    foot->addWidget(note_, 1);
    foot->addWidget(all_dates_);
    foot->addWidget(parts_);
    foot->addWidget(table_button_);
    foot->addWidget(copy_button_);

    body_ = new QWidget;
    auto* body = new QVBoxLayout(body_);
    body->setContentsMargins(0, 0, 0, 0);
    body->setSpacing(4);
    body->addWidget(view_, 1);
    body->addLayout(slider_row);
    body->addWidget(readings);
    body->addSpacing(4);
    body->addLayout(foot);

    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(6);
    all->addWidget(title_);
    all->addWidget(body_, 1);

    connect(view_, &FillView::readerMoved, this, &FillChart::setReader);
    connect(view_, &FillView::laidOut, this, [this] {
        alignSlider();
        all_dates_->setVisible(isZoomed());
    });
    connect(view_, &FillView::dateDoubleClicked, this, [this](double day) {
        if (box_) emit eventWanted(add_days(as_of_, std::round(day)));
    });
    connect(slider_, &QSlider::valueChanged, this, &FillChart::setReader);
    retheme();
    setBox(nullptr, 1, {});
}

FillChart::~FillChart() {
    // The view's scene owns the chart, whose items the plot still points at: the view goes first.
    delete view_;
}

void FillChart::setBox(const BoxOutlook* box, double horizon_days, Day as_of) {
    const bool other_box = !box_ || !box || box->name != box_->name;
    const auto read = readDate();
    if (box && !box->fill.empty())
        box_ = *box;
    else
        box_.reset();
    horizon_ = horizon_days;
    as_of_ = as_of;
    plot_->setBox(box_ ? &*box_ : nullptr, horizon_days, as_of);
    if (box_)
        table_->setBox(*box_);
    else
        table_->clear();
    {
        const QSignalBlocker quiet(slider_);
        slider_->setRange(0, box_ ? static_cast<int>(box_->fill.size()) - 1 : 0);
        slider_->setPageStep(13);
    }
    all_dates_->setVisible(isZoomed());
    body_->setVisible(box_.has_value());
    if (box_ && read && !other_box)
        readAt(*read);
    else
        setReader(box_ ? 0 : -1);
    alignSlider();
    tell();
}

void FillChart::setKept(const BoxOutlook* kept, const QString& name) {
    kept_ = kept ? std::optional(*kept) : std::nullopt;
    kept_name_ = name;
    plot_->setKept(kept, name);
    alignSlider();
}

void FillChart::setPrefixes(Prefixes prefixes) {
    prefixes_ = prefixes;
    plot_->setPrefixes(prefixes);
    table_->setPrefixes(prefixes);
    showReading();
    alignSlider();
    tell();
}

void FillChart::setState(ShownState state) {
    if (state == state_) return;
    state_ = state;
    retheme();
    tell();
}

void FillChart::setPartsShown(bool shown) {
    parts_->setChecked(shown);
    plot_->setPartsShown(shown);
    alignSlider();
}

void FillChart::readAt(Day day) {
    setReader(plot_->nearest(static_cast<double>((day - as_of_).count())));
}

std::optional<Day> FillChart::readDate() const {
    if (!box_ || plot_->reader() < 0) return std::nullopt;
    return box_->fill[static_cast<std::size_t>(plot_->reader())].date;
}

QString FillChart::title() const {
    return box_ ? FillText::title(*box_, horizon_, as_of_) : tr("No forecast to draw yet");
}

QString FillChart::readout() const {
    return box_ && plot_->reader() >= 0
               ? FillText::at(box_->fill[static_cast<std::size_t>(plot_->reader())], *box_,
                              prefixes_)
               : QString();
}

QString FillChart::tabSeparated() const { return table_->tabSeparated(); }
QWidget* FillChart::view() const { return view_; }
QRectF FillChart::plotArea() const { return plot_->plotArea(); }
std::vector<QRectF> FillChart::labelBoxes() const { return plot_->labelBoxes(); }
QStringList FillChart::axisTexts() const { return plot_->axisTexts(); }
QStringList FillChart::labelTexts() const { return plot_->labelTexts(); }
QList<QPointF> FillChart::fullLine() const { return plot_->fullLine(); }
QList<QPointF> FillChart::ceilingLine() const { return plot_->ceilingLine(); }
QList<QPointF> FillChart::keptLine() const { return plot_->keptLine(); }
QStringList FillChart::markTips() const { return plot_->markTips(); }
void FillChart::setDayRange(double from, double to) {
    plot_->setDayRange(from, to);
    all_dates_->setVisible(isZoomed());
}

bool FillChart::isZoomed() const {
    return box_ && plot_->toDay() - plot_->fromDay() < plot_->horizon() - 1e-6;
}

void FillChart::showAllDates() { view_->showAllDates(); }

void FillChart::setReader(int index) {
    plot_->setReader(index);
    {
        const QSignalBlocker quiet(slider_);
        slider_->setValue(std::max(0, plot_->reader()));
    }
    showReading();
}

void FillChart::showReading() {
    if (!box_ || plot_->reader() < 0) {
        for (auto& [caption, value] : readings_) value->clear();
        return;
    }
    const FillPoint& p = box_->fill[static_cast<std::size_t>(plot_->reader())];
    const auto bytes = [this](double b) { return Words::bytes(b, prefixes_); };
    const QString values[] = {
        Words::full_date(p.date),
        box_->usable_bytes > 0 ? tr("%1 (%2)", "size, share of usable")
                                     .arg(bytes(p.used_bytes.p50), Words::percent(p.fill))
                               : bytes(p.used_bytes.p50),
        p.used_bytes.p10 == p.used_bytes.p90
            ? bytes(p.used_bytes.p50)
            : tr("%1 to %2", "sizes").arg(bytes(p.used_bytes.p10), bytes(p.used_bytes.p90)),
        bytes(p.live_bytes.p50), bytes(p.held_bytes.p50)};
    for (std::size_t i = 0; i < readings_.size(); ++i) readings_[i].second->setText(values[i]);
    const QString words = readout();
    slider_->setAccessibleDescription(words);
    view_->setAccessibleDescription(FillText::summary(*box_, horizon_, as_of_, prefixes_) + u' ' +
                                    tr("Read: %1").arg(words));
}

void FillChart::alignSlider() {
    const QRectF plot = plot_->plotArea();
    // Half a handle beyond the plot at both ends, so that the handle's middle is the reader's line.
    const int half = slider_->style()->pixelMetric(QStyle::PM_SliderLength, nullptr, slider_) / 2;
    const auto width = [half](double w) { return std::max(0, static_cast<int>(std::lround(w - half))); };
    const int left = width(plot.left()), right = width(view_->width() - plot.right());
    if (slider_left_->sizeHint().width() == left && slider_right_->sizeHint().width() == right) return;
    slider_left_->changeSize(left, 0, QSizePolicy::Fixed, QSizePolicy::Minimum);
    slider_right_->changeSize(right, 0, QSizePolicy::Fixed, QSizePolicy::Minimum);
    if (body_->layout()) body_->layout()->invalidate();
}

void FillChart::tell() {
    title_->setText(title());
    setAccessibleName(title());
    view_->setAccessibleName(title());
    if (!box_) view_->setAccessibleDescription(QString());
    setAccessibleDescription(state_words(state_));
}

void FillChart::retheme() {
    if (retheming_) return;
    retheming_ = true;
    const Theme theme = Theme::of(palette());
    const bool stale = out_of_date(state_);
    const Theme shown = stale ? faded(theme) : theme;
    plot_->setLook(shown, font());
    view_->setBackgroundBrush(theme.surface);
    title_->setFont(scaled(font(), 1.25, QFont::DemiBold));
    set_text_colour(*title_, shown.ink);
    const auto coloured = [this](QLabel* label, const QColor& colour, double size) {
        set_text_colour(*label, colour);
        label->setFont(scaled(font(), size));
    };
    for (auto& [caption, value] : readings_) {
        coloured(caption, shown.muted, 0.88);
        coloured(value, shown.ink, 1);
    }
    coloured(note_, shown.muted, 0.88);
    const QFontMetricsF metrics(font());
    if (auto* tiles = findChild<TileLayout*>(QStringLiteral("readings")))
        tiles->setLeastWidth(static_cast<int>(metrics.height() * 6.4));
    view_->setMinimumSize(static_cast<int>(metrics.height() * 18),
                          static_cast<int>(metrics.height() * 13.5));
    retheming_ = false;
    alignSlider();
}

void FillChart::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange ||
        event->type() == QEvent::StyleChange)
        retheme();
}

void FillChart::showTable() {
    if (table_dialog_) {
        table_dialog_->raise();
        table_dialog_->activateWindow();
        return;
    }
    table_dialog_ = show_table(this, QStringLiteral("fillTableDialog"), title(), table_,
                               [this] { copyNumbers(); });
}

void FillChart::copyPicture() const { picture(picture_size).copy(); }

ExportPicture FillChart::picture(const QSize& size) const {
    return {title(), size, Theme::of(palette()).surface,
            [this](QPainter& painter, const QRectF& place) { paintTo(painter, place, palette(), font()); }};
}

QByteArray FillChart::svg() const { return picture(picture_size).svg(); }

QString FillChart::savePicture(const QString& path) const { return picture(picture_size).save(path); }

QString FillChart::saveNumbers(const QString& path) const {
    return save_bytes(path, table_->commaSeparated().toUtf8());
}

void FillChart::choosePictureFile() {
    if (box_) ask_and_save_picture(this, QString::fromStdString(box_->name), picture(picture_size));
}

void FillChart::chooseNumbersFile() {
    if (box_) ask_and_save_numbers(this, QString::fromStdString(box_->name), table_->commaSeparated());
}

void FillChart::copyNumbers() const { QApplication::clipboard()->setText(tabSeparated()); }

QImage FillChart::renderImage(const QSize& size, qreal ratio) const { return picture(size).image(ratio); }

void FillChart::paintTo(QPainter& painter, const QRectF& place, const QPalette& palette,
                        const QFont& font) const {
    if (box_)
        paint_fill(painter, place, *box_, horizon_, as_of_, prefixes_, parts_->isChecked(), palette,
                   font,
                   {kept_ ? &*kept_ : nullptr, kept_name_,
                    std::pair(plot_->fromDay(), plot_->toDay())});
}

void paint_fill(QPainter& painter, const QRectF& place, const BoxOutlook& box, double horizon_days,
                Day as_of, Prefixes prefixes, bool parts, const QPalette& palette,
                const QFont& font, const FillExtras& extras) {
    const Theme theme = Theme::of(palette);
    painter.save();
    painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    painter.fillRect(place, theme.surface);
    const double pad = QFontMetricsF(font).height();
    const QRectF inner = place.adjusted(pad, pad, -pad, -pad);

    const QFont title_font = scaled(font, 1.5, QFont::DemiBold);
    const QString title = FillText::title(box, horizon_days, as_of);
    const QRectF title_box = QFontMetricsF(title_font).boundingRect(inner, Qt::TextWordWrap, title);
    painter.setFont(title_font);
    painter.setPen(theme.ink);
    painter.drawText(inner, Qt::TextWordWrap, title);

    const QFont note_font = scaled(font, 0.9);
    const QString note = FillText::bands_note();
    const double note_height =
        QFontMetricsF(note_font).boundingRect(inner, Qt::TextWordWrap, note).height();
    painter.setFont(note_font);
    painter.setPen(theme.muted);
    painter.drawText(QRectF(inner.left(), inner.bottom() - note_height, inner.width(), note_height),
                     Qt::TextWordWrap, note);

    const QRectF chart_place =
        inner.adjusted(0, title_box.height() + pad * 0.6, 0, -note_height - pad * 0.5);
    FillPlot plot;
    QGraphicsScene scene;
    scene.addItem(plot.chart());
    plot.chart()->resize(chart_place.size());
    plot.setLook(theme, font);
    plot.setPrefixes(prefixes);
    plot.setPartsShown(parts);
    plot.setBox(&box, horizon_days, as_of);
    plot.setKept(extras.kept, extras.kept_name);
    if (extras.days) plot.setDayRange(extras.days->first, extras.days->second);
    plot.layOut(chart_place.size());
    scene.setSceneRect(QRectF(QPointF(0, 0), chart_place.size()));
    scene.render(&painter, chart_place, scene.sceneRect(), Qt::IgnoreAspectRatio);
    painter.restore();
}

bool writeFillPictures(const Answer& answer, const QString& folder, QStringList* written) {
    const QDir dir(folder);
    if (!dir.mkpath(QStringLiteral("."))) return false;
    QFont font = QApplication::font();
    font.setPixelSize(15);
    QStringList used;
    for (const BoxOutlook& box : answer.outlook.boxes) {
        QImage image(1200, 700, QImage::Format_RGB32);
        QPainter painter(&image);
        paint_fill(painter, QRectF(0, 0, 1200, 700), box, answer.outlook.horizon_days,
                   answer.outlook.as_of, Prefixes::decimal, true, light_palette(), font);
        painter.end();

        QByteArray png;
        QBuffer buffer(&png);
        if (!buffer.open(QIODevice::WriteOnly) || !image.save(&buffer, "PNG")) return false;
        const QString stem = QStringLiteral("fill-") + file_stem(QString::fromStdString(box.name));
        QString name = stem;
        for (int n = 2; used.contains(name); ++n) name = stem + QStringLiteral("-%1").arg(n);
        used << name;
        const QString path = dir.filePath(name + QStringLiteral(".png"));
        QSaveFile file(path);
        if (!file.open(QIODevice::WriteOnly)) return false;
        if (file.write(png) != png.size()) {  // Qt 6.4 commits a short file after a short write
            file.cancelWriting();
            return false;
        }
        if (!file.commit()) return false;
        if (written) *written << path;
    }
    return true;
}

}  // namespace ullage
