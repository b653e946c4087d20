// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/charts/fill_plot.h"

#include "ui/charts/fill_table.h"
#include "ui/charts/fill_text.h"
#include "ui/theme/words.h"

#include <QFontMetricsF>
#include <QGraphicsEllipseItem>
#include <QGraphicsLayout>
#include <QGraphicsLineItem>
#include <QGraphicsPathItem>
#include <QGraphicsSimpleTextItem>
#include <QLocale>
#include <QPainterPath>
#include <QPen>
#include <QtCharts/QAreaSeries>
#include <QtCharts/QCategoryAxis>
#include <QtCharts/QLineSeries>
#include <QtCharts/QValueAxis>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

constexpr double least_range_days = 14;
constexpr double leader_length = 12;
constexpr double most_label_heights = 8;  ///< width of a name at the right edge, in line heights
constexpr double overlay_z = 50, reader_z = 60;  // Qt Charts draws its series below 10

double finite_or_zero(double x) { return std::isfinite(x) ? x : 0; }

double blend(double a, double b, double share) { return a + (b - a) * share; }

Band blend(const Band& a, const Band& b, double s) {
    return {blend(a.p10, b.p10, s), blend(a.p25, b.p25, s), blend(a.p50, b.p50, s),
            blend(a.p75, b.p75, s), blend(a.p90, b.p90, s)};
}

}  // namespace

FillPlot::FillPlot(QObject* parent) : QObject(parent), chart_(new QChart) {
    chart_->setAnimationOptions(QChart::NoAnimation);
    chart_->setTheme(QChart::ChartThemeLight);
    chart_->setBackgroundVisible(false);
    chart_->setBackgroundRoundness(0);
    chart_->setMargins(QMargins(0, 0, 0, 0));
    chart_->setLocalizeNumbers(true);
    chart_->setLocale(QLocale());
    chart_->setAcceptHoverEvents(false);

    dates_ = new QCategoryAxis;
    dates_->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
    dates_->setTruncateLabels(false);
    dates_->setGridLineVisible(true);
    sizes_ = new QValueAxis;
    sizes_->setTickType(QValueAxis::TicksDynamic);
    sizes_->setTickAnchor(0);
    sizes_->setTruncateLabels(false);
    chart_->addAxis(dates_, Qt::AlignBottom);
    chart_->addAxis(sizes_, Qt::AlignLeft);

    const auto attach = [this](QAbstractSeries* series) {
        chart_->addSeries(series);
        series->attachAxis(dates_);
        series->attachAxis(sizes_);
    };
    // An area does not own the lines that bound it; parented to it they end with it.
    const auto area = [&](QLineSeries*& upper, QLineSeries*& lower) {
        upper = new QLineSeries;
        lower = new QLineSeries;
        auto* series = new QAreaSeries(upper, lower);
        upper->setParent(series);
        lower->setParent(series);
        attach(series);
        return series;
    };
    QLineSeries* ground = nullptr;
    live_ = area(live_top_, ground);
    ground->append(0, 0);
    held_ = area(held_top_, held_low_);
    other_ = area(other_top_, other_low_);
    outer_ = area(p90_, p10_);
    inner_ = area(p75_, p25_);
    const auto line = [&] {
        auto* series = new QLineSeries;
        attach(series);
        return series;
    };
    edge_low_ = line();
    edge_high_ = line();
    ceiling_ = line();
    full_ = line();
    kept_line_ = line();
    median_ = line();
    chart_->legend()->hide();
    live_->setLowerSeries(nullptr);
    delete ground;

    unit_text_ = new QGraphicsSimpleTextItem(chart_);
    unit_text_->setZValue(overlay_z);
    reader_line_ = new QGraphicsLineItem(chart_);
    reader_line_->setZValue(reader_z);
    for (int i = 0; i < 3; ++i) {
        reader_dots_.push_back(new QGraphicsEllipseItem(chart_));
        reader_dots_.back()->setZValue(reader_z + 1);
    }
    style();
}

void FillPlot::setBox(const BoxOutlook* box, double horizon_days, Day as_of) {
    const bool other_scale =
        !has_box_ || horizon_days != horizon_ || (box && box->name != box_.name);
    has_box_ = box != nullptr && !box->fill.empty();
    box_ = has_box_ ? *box : BoxOutlook{};
    as_of_ = as_of;
    horizon_ = std::max(1.0, horizon_days);
    if (has_box_) horizon_ = std::max(horizon_, dayOf(static_cast<int>(box_.fill.size()) - 1));
    if (other_scale) {
        from_ = 0;
        to_ = horizon_;
    }
    if (reader_ >= static_cast<int>(box_.fill.size()))
        reader_ = static_cast<int>(box_.fill.size()) - 1;
    fillSeries();
    layOut(size_);
}

void FillPlot::setKept(const BoxOutlook* kept, const QString& name) {
    if (!kept && kept_.empty()) return;
    kept_ = kept ? kept->fill : std::vector<FillPoint>();
    kept_name_ = name;
    fillSeries();
    layOut(size_);
}

// Within the present horizon: what was kept may be as of another day.
QList<QPointF> FillPlot::keptPoints() const {
    QList<QPointF> points;
    for (const FillPoint& p : kept_) {
        const auto day = static_cast<double>((p.date - as_of_).count());
        if (has_box_ && day >= 0 && day <= horizon_)
            points << QPointF(day, finite_or_zero(p.used_bytes.p50));
    }
    return points;
}

void FillPlot::setPrefixes(Prefixes prefixes) {
    if (prefixes == prefixes_) return;
    prefixes_ = prefixes;
    fillSeries();
    layOut(size_);
}

void FillPlot::setPartsShown(bool shown) {
    if (shown == parts_) return;
    parts_ = shown;
    fillSeries();
    layOut(size_);
}

void FillPlot::setLook(const Theme& theme, const QFont& font) {
    const bool other_font = font != font_;
    theme_ = theme;
    font_ = font;
    style();
    colourOverlay();
    if (!other_font) return;
    fillSeries();
    layOut(size_);
}

void FillPlot::setReader(int index) {
    reader_ = std::clamp(index, -1, static_cast<int>(box_.fill.size()) - 1);
    placeReader();
}

void FillPlot::setDayRange(double from, double to) {
    const double length = std::clamp(to - from, std::min(least_range_days, horizon_), horizon_);
    from_ = std::clamp(from, 0.0, horizon_ - length);
    to_ = from_ + length;
    layOut(size_);
}

double FillPlot::dayOf(int index) const {
    if (index < 0 || index >= static_cast<int>(box_.fill.size())) return 0;
    return static_cast<double>((box_.fill[static_cast<std::size_t>(index)].date - as_of_).count());
}

int FillPlot::nearest(double day) const {
    int best = -1;
    double distance = 0;
    for (int i = 0; i < static_cast<int>(box_.fill.size()); ++i) {
        const double d = std::abs(dayOf(i) - day);
        if (best < 0 || d < distance) {
            best = i;
            distance = d;
        }
    }
    return best;
}

double FillPlot::xOf(double day) const {
    return plot_.left() + (day - from_) / (to_ - from_) * plot_.width();
}

double FillPlot::dayAt(double x) const {
    if (plot_.width() <= 0) return from_;
    return std::clamp(from_ + (x - plot_.left()) / plot_.width() * (to_ - from_), 0.0, horizon_);
}

double FillPlot::yOf(double value) const { return plot_.bottom() - value / top_ * plot_.height(); }

// For labels at the edge of a zoomed view, which need not be a computed date.
FillPoint FillPlot::pointAt(double day) const {
    const auto& fill = box_.fill;
    if (fill.empty()) return {};
    std::size_t i = 0;
    while (i + 1 < fill.size() && dayOf(static_cast<int>(i) + 1) < day) ++i;
    if (i + 1 >= fill.size()) return fill.back();
    const double a = dayOf(static_cast<int>(i)), b = dayOf(static_cast<int>(i) + 1);
    const double share = b > a ? std::clamp((day - a) / (b - a), 0.0, 1.0) : 0;
    FillPoint p = fill[i];
    p.used_bytes = blend(fill[i].used_bytes, fill[i + 1].used_bytes, share);
    p.live_bytes = blend(fill[i].live_bytes, fill[i + 1].live_bytes, share);
    p.held_bytes = blend(fill[i].held_bytes, fill[i + 1].held_bytes, share);
    p.other_bytes = blend(fill[i].other_bytes, fill[i + 1].other_bytes, share);
    return p;
}

void FillPlot::fillSeries() {
    levels_ = space_levels(box_, as_of_);
    double top = 0;
    for (const SpaceLevel& level : levels_)
        if (level.from_day <= horizon_) top = std::max(top, finite_or_zero(level.usable_bytes));
    for (const FillPoint& p : box_.fill) top = std::max(top, finite_or_zero(p.used_bytes.p90));
    QList<QPointF> kept = keptPoints();
    for (const QPointF& p : std::as_const(kept)) top = std::max(top, p.y());
    top = std::max(top, 1.0);
    const ByteUnit unit = byte_unit(top, prefixes_);
    unit_ = unit.name;
    unit_bytes_ = unit.bytes;
    top_ = top / unit_bytes_ * 1.05;
    for (QPointF& p : kept) p.setY(p.y() / unit_bytes_);
    kept_line_->replace(kept);

    QList<QPointF> p10, p25, p50, p75, p90, live, held, other;
    for (int i = 0; i < static_cast<int>(box_.fill.size()); ++i) {
        const FillPoint& p = box_.fill[static_cast<std::size_t>(i)];
        const double x = dayOf(i);
        const auto at = [&](double bytes) {
            return QPointF(x, finite_or_zero(bytes) / unit_bytes_);
        };
        p10 << at(p.used_bytes.p10);
        p25 << at(p.used_bytes.p25);
        p50 << at(p.used_bytes.p50);
        p75 << at(p.used_bytes.p75);
        p90 << at(p.used_bytes.p90);
        // Medians of parts need not add up to the median of their sum: the drawing stops at the
        // median.
        const double most = p.used_bytes.p50;
        const double a = std::min(most, p.live_bytes.p50);
        const double b = std::min(most, a + p.held_bytes.p50);
        live << at(a);
        held << at(b);
        other << at(p.other_bytes > 0 ? most : b);
    }
    p10_->replace(p10);
    p25_->replace(p25);
    p75_->replace(p75);
    p90_->replace(p90);
    edge_low_->replace(p10);
    edge_high_->replace(p90);
    median_->replace(p50);
    live_top_->replace(live);
    held_low_->replace(live);
    held_top_->replace(held);
    other_low_->replace(held);
    other_top_->replace(other);
    const bool has_other = std::any_of(box_.fill.begin(), box_.fill.end(),
                                       [](const FillPoint& p) { return p.other_bytes > 0; });
    live_->setVisible(parts_ && has_box_);
    held_->setVisible(parts_ && has_box_);
    other_->setVisible(parts_ && has_other);
    const auto stepped = [&](QLineSeries* series, double SpaceLevel::*bytes) {
        QList<QPointF> line;
        const auto to = [&](double day, double size) {
            line << QPointF(day, finite_or_zero(size) / unit_bytes_);
        };
        for (const SpaceLevel& level : levels_) {
            if (!has_box_ || level.*bytes <= 0 || level.from_day > horizon_) break;
            if (!line.isEmpty()) line << QPointF(level.from_day, line.back().y());
            to(level.from_day, level.*bytes);
        }
        if (!line.isEmpty()) line << QPointF(horizon_, line.back().y());
        series->replace(line);
    };
    stepped(ceiling_, &SpaceLevel::ceiling_bytes);
    stepped(full_, &SpaceLevel::usable_bytes);

    for (auto& label : labels_) {
        delete label.item;
        delete label.leader;
    }
    labels_.clear();
    ceiling_label_ = full_label_ = kept_label_ = -1;
    for (auto& event : events_) {
        delete event.line;
        delete event.mark;
    }
    events_.clear();
    if (!has_box_) return;

    const auto add = [&](const QString& text, QColor Theme::*colour) {
        EdgeLabel label;
        label.text = text;
        label.colour = colour;
        label.item = new QGraphicsSimpleTextItem(text, chart_);
        label.item->setFont(scaled(font_, 0.92));
        label.item->setZValue(overlay_z);
        label.leader = new QGraphicsLineItem(chart_);
        label.leader->setZValue(overlay_z);
        labels_.push_back(label);
    };
    // In the order that placeOverlay() gives them values.
    add(tr("1 in 10 above"), &Theme::muted);
    add(tr("middle forecast"), &Theme::median);
    add(tr("1 in 10 below"), &Theme::muted);
    if (box_.ceiling_bytes > 0) {
        ceiling_label_ = static_cast<int>(labels_.size());
        add(tr("ceiling %1")
                .arg(Words::percent(
                    box_.usable_bytes > 0 ? box_.ceiling_bytes / box_.usable_bytes : 0, 3)),
            &Theme::ceiling);
    }
    if (box_.usable_bytes > 0) {
        full_label_ = static_cast<int>(labels_.size());
        add({}, &Theme::full);
        sayLevels();
    }
    if (parts_) {
        add(tr("live"), &Theme::muted);
        add(tr("held"), &Theme::muted);
        if (has_other) add(tr("other"), &Theme::muted);
    }
    if (!kept.isEmpty()) {
        kept_label_ = static_cast<int>(labels_.size());
        const QFontMetricsF metrics(scaled(font_, 0.92));
        add(metrics.elidedText(kept_name_, Qt::ElideRight, metrics.height() * most_label_heights),
            &Theme::ink);
        labels_.back().item->setToolTip(kept_name_);
    }
    const auto mark = [&](Day on, const QString& tip, bool of_box) {
        EventItem item;
        item.day = static_cast<double>((on - as_of_).count());
        item.of_box = of_box;
        item.line = new QGraphicsLineItem(chart_);
        item.mark = new QGraphicsPathItem(chart_);
        item.mark->setToolTip(tip);
        item.line->setZValue(overlay_z - 1);
        item.mark->setZValue(overlay_z);
        events_.push_back(item);
    };
    for (const EventMark& event : box_.events) mark(event.on, FillText::event(event), false);
    for (const SpaceChange& change : box_.changes)
        mark(change.on, FillText::change(change, prefixes_), true);
}

// Of the level that holds at the right edge.
void FillPlot::sayLevels() {
    if (full_label_ < 0) return;
    EdgeLabel& label = labels_[static_cast<std::size_t>(full_label_)];
    label.text = tr("full, %1").arg(Words::bytes(level_at(levels_, to_).usable_bytes, prefixes_));
    label.item->setText(label.text);
}

void FillPlot::style() {
    const QFont small = scaled(font_, 0.92);
    const auto no_pen = QPen(Qt::NoPen);
    live_->setPen(no_pen);
    live_->setBrush(theme_.live);
    held_->setPen(no_pen);
    held_->setBrush(theme_.held);
    other_->setPen(no_pen);
    other_->setBrush(theme_.other);
    outer_->setPen(no_pen);
    outer_->setBrush(theme_.band_outer);
    inner_->setPen(no_pen);
    inner_->setBrush(theme_.band_inner);
    edge_low_->setPen(QPen(theme_.median, 1.25));
    edge_high_->setPen(QPen(theme_.median, 1.25));
    median_->setPen(QPen(theme_.median, 2.5, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin));
    QPen dashed(theme_.ceiling, 2, Qt::CustomDashLine, Qt::FlatCap);
    dashed.setDashPattern({5, 3});
    ceiling_->setPen(dashed);
    full_->setPen(QPen(theme_.full, 3, Qt::SolidLine, Qt::FlatCap));
    QPen dotted(theme_.ink, 2, Qt::CustomDashLine, Qt::RoundCap, Qt::RoundJoin);
    dotted.setDashPattern({0.1, 2});
    kept_line_->setPen(dotted);

    for (QAbstractAxis* axis :
         {static_cast<QAbstractAxis*>(dates_), static_cast<QAbstractAxis*>(sizes_)}) {
        axis->setLabelsFont(small);
        axis->setLabelsColor(theme_.muted);
        axis->setGridLinePen(QPen(theme_.grid, 1));
        axis->setLinePen(QPen(theme_.edge, 1));
    }
    sizes_->setLineVisible(false);
    unit_text_->setFont(small);
    unit_text_->setBrush(theme_.muted);
    reader_line_->setPen(QPen(theme_.ink, 1));
    for (auto* dot : reader_dots_) {
        dot->setPen(QPen(theme_.ink, 1.5));
        dot->setBrush(theme_.surface);
    }
}

void FillPlot::layOut(const QSizeF& size) {
    size_ = size;
    if (size.width() < 10 || size.height() < 10) return;
    const QFontMetricsF metrics(scaled(font_, 0.92));
    const double line = metrics.height();
    sayLevels();

    // Sizes at nice steps, about one for every three lines of text.
    const double strip = std::ceil(line * 1.75);  // above the plot: unit, event marks
    const double bottom = std::ceil(line * 1.55);
    const double plot_height = std::max(20.0, size.height() - strip - bottom);
    const double step = nice_step(top_, std::max(2, static_cast<int>(plot_height / (line * 2.6))));
    const int decimals = std::max(0, static_cast<int>(std::ceil(-std::log10(step) - 1e-9)));
    double widest = 0;
    for (double v = 0; v <= top_; v += step)
        widest = std::max(widest, metrics.horizontalAdvance(QLocale().toString(v, 'f', decimals)));
    double label_width = 0;
    for (const auto& label : labels_)
        label_width = std::max(label_width, metrics.horizontalAdvance(label.text));

    const double left = std::ceil(widest + line * 0.75);
    const double right = labels_.empty() ? line : std::ceil(leader_length + 4 + label_width + 2);
    plot_ = QRectF(left, strip, std::max(20.0, size.width() - left - right), plot_height);
    chart_->setPlotArea(plot_);

    sizes_->setRange(0, top_);
    sizes_->setTickInterval(step);
    const QString format = QStringLiteral("%.%1f").arg(decimals);
    if (format != sizes_->labelFormat()) sizes_->setLabelFormat(format);
    layOutDates(metrics);

    // Off screen no event loop runs that would place the axes.
    if (chart_->layout()) chart_->layout()->activate();

    unit_text_->setText(has_box_ ? tr("%1 used", "unit of an axis").arg(unit_) : QString());
    unit_text_->setPos(0, 0);
    placeOverlay();
    placeReader();
}

// An axis lays out its texts at every change: nothing is set that is as it was.
void FillPlot::layOutDates(const QFontMetricsF& metrics) {
    const QDate start = Words::date(as_of_);
    ticks_ =
        calendar_ticks(start.addDays(static_cast<qint64>(std::ceil(from_))),
                       start.addDays(static_cast<qint64>(std::floor(to_))), plot_.width(), metrics);
    // A date close to the sizes' axis would run into the size at its foot.
    std::erase_if(ticks_, [&](const DateTick& tick) {
        const double part = (static_cast<double>(start.daysTo(tick.date)) - from_) / std::max(to_ - from_, 1e-9);
        return part * plot_.width() < metrics.horizontalAdvance(tick.text) / 2 - 4;
    });
    const QStringList old = dates_->categoriesLabels();
    const auto stays = [&](const DateTick& tick, const QString& label) {
        return tick.text == label && dates_->endValue(label) == static_cast<double>(start.daysTo(tick.date));
    };
    const bool same_place = laid_out_ == plot_;
    laid_out_ = plot_;
    if (same_place && dates_->min() == from_ && dates_->max() == to_ &&
        std::equal(ticks_.begin(), ticks_.end(), old.begin(), old.end(), stays))
        return;
    for (const QString& label : old) dates_->remove(label);
    dates_->setRange(from_, to_);
    dates_->setStartValue(from_ - 1);
    for (const DateTick& tick : ticks_)
        dates_->append(tick.text, static_cast<double>(start.daysTo(tick.date)));
    dates_->setRange(from_, to_);
}

void FillPlot::placeOverlay() {
    const QFontMetricsF metrics(scaled(font_, 0.92));
    if (!labels_.empty()) {
        const FillPoint end = pointAt(to_);
        std::size_t i = 0;
        const auto give = [&](double bytes) { labels_[i++].value = bytes / unit_bytes_; };
        give(end.used_bytes.p90);
        give(end.used_bytes.p50);
        give(end.used_bytes.p10);
        const SpaceLevel& level = level_at(levels_, to_);
        if (ceiling_label_ >= 0) give(level.ceiling_bytes);
        if (full_label_ >= 0) give(level.usable_bytes);
        if (parts_) {
            const double live = std::min(end.live_bytes.p50, end.used_bytes.p50);
            const double held = std::min(end.held_bytes.p50, end.used_bytes.p50 - live);
            give(live / 2);
            give(live + held / 2);
            const auto parts_end = kept_label_ >= 0 ? labels_.size() - 1 : labels_.size();
            if (i < parts_end) give((live + held + end.used_bytes.p50) / 2);
        }
        if (kept_label_ >= 0) labels_[i++].value = keptValueAt(to_);
        std::vector<double> wished;
        for (const auto& label : labels_) wished.push_back(yOf(finite_or_zero(label.value)));
        const double height = std::ceil(metrics.height());
        const auto centres = pushed_apart(wished, height, 0, plot_.bottom() + height / 2);
        for (std::size_t k = 0; k < labels_.size(); ++k) {
            auto& label = labels_[k];
            label.item->setPos(plot_.right() + leader_length + 4,
                               centres[k] - label.item->boundingRect().height() / 2);
            label.leader->setLine(plot_.right() + 2, wished[k], plot_.right() + leader_length,
                                  centres[k]);
        }
    }
    const double half = std::round(metrics.height() * 0.32);
    for (auto& event : events_) {
        const bool seen = event.day >= from_ && event.day <= to_;
        event.line->setVisible(seen);
        event.mark->setVisible(seen);
        if (!seen) continue;
        const double x = std::round(xOf(event.day)) + 0.5;
        const double y = plot_.top() - half - 4;
        QPainterPath shape;
        if (event.of_box) {
            const double side = half * 0.8;
            shape.addRect(QRectF(x - side, y - side, 2 * side, 2 * side));
        } else {
            shape.addPolygon(QPolygonF{QPointF(x, y - half), QPointF(x + half, y),
                                       QPointF(x, y + half), QPointF(x - half, y)});
            shape.closeSubpath();
        }
        event.mark->setPath(shape);
        event.line->setLine(x, plot_.top(), x, plot_.bottom());
    }
    colourOverlay();
}

void FillPlot::colourOverlay() {
    for (auto& label : labels_) {
        const QColor& colour = theme_.*label.colour;
        label.item->setBrush(colour);
        label.leader->setPen(QPen(colour, 1));
    }
    for (auto& event : events_) {
        event.mark->setPen(QPen(theme_.surface, 1));
        event.mark->setBrush(theme_.ink);
        event.line->setPen(QPen(theme_.muted, 1, Qt::DotLine));
    }
}

void FillPlot::placeReader() {
    const double day = dayOf(reader_);
    const bool seen = has_box_ && reader_ >= 0 && day >= from_ - 1e-9 && day <= to_ + 1e-9;
    reader_line_->setVisible(seen);
    for (auto* dot : reader_dots_) dot->setVisible(seen);
    if (!seen) return;
    const double x = xOf(day);
    reader_line_->setLine(x, plot_.top(), x, plot_.bottom());
    const Band& used = box_.fill[static_cast<std::size_t>(reader_)].used_bytes;
    const double values[] = {used.p10, used.p50, used.p90};
    for (std::size_t i = 0; i < reader_dots_.size(); ++i) {
        const double r = i == 1 ? 4 : 2.5;
        reader_dots_[i]->setRect(x - r, yOf(finite_or_zero(values[i]) / unit_bytes_) - r, 2 * r,
                                 2 * r);
    }
}

/// Shown unit; held at its ends.
double FillPlot::keptValueAt(double day) const {
    const QList<QPointF> line = kept_line_->points();
    const auto after = std::find_if(line.begin(), line.end(),
                                    [day](const QPointF& point) { return point.x() >= day; });
    if (after == line.end()) return line.back().y();
    if (after == line.begin()) return after->y();
    const QPointF before = *std::prev(after);
    return blend(before.y(), after->y(), (day - before.x()) / (after->x() - before.x()));
}

std::vector<QRectF> FillPlot::labelBoxes() const {
    std::vector<QRectF> boxes;
    for (const auto& label : labels_) boxes.push_back(label.item->sceneBoundingRect());
    return boxes;
}

QStringList FillPlot::labelTexts() const {
    QStringList texts;
    for (const auto& label : labels_) texts << label.text;
    return texts;
}

QList<QPointF> FillPlot::fullLine() const { return full_->points(); }
QList<QPointF> FillPlot::ceilingLine() const { return ceiling_->points(); }
QList<QPointF> FillPlot::keptLine() const { return kept_line_->points(); }

QStringList FillPlot::markTips() const {
    QStringList tips;
    for (const EventItem& event : events_)
        if (event.day >= from_ && event.day <= to_) tips << event.mark->toolTip();
    return tips;
}

QStringList FillPlot::axisTexts() const { return dates_->categoriesLabels(); }

}  // namespace ullage
