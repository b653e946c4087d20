// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/form.h"

#include "ui/document/site_document.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"
#include "ui/window/look.h"

#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPainter>
#include <QToolButton>

namespace ullage::ui {

namespace {

constexpr int column_gap = 10, row_gap = 6, section_gap = 10;  ///< pixels
constexpr double label_ems = 10.5;

/// Words on a hairline with a small triangle; pressed: unfolded.
class SectionHeading : public QToolButton {
public:
    using QToolButton::QToolButton;

    QSize sizeHint() const override { return {80, fontMetrics().height() + 10}; }

protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        const Theme theme = Theme::of(palette());
        const double size = fontMetrics().height() * 0.42;
        const QPointF middle(width() - size - 1, height() / 2.0 - 1);
        QPolygonF triangle;
        if (isChecked())
            triangle << middle + QPointF(-size, -size / 2) << middle + QPointF(size, -size / 2)
                     << middle + QPointF(0, size / 2);
        else
            triangle << middle + QPointF(size / 2, -size) << middle + QPointF(size / 2, size)
                     << middle + QPointF(-size / 2, 0);
        painter.setPen(Qt::NoPen);
        painter.setBrush(underMouse() ? palette().color(QPalette::WindowText)
                                      : quietColour(palette()));
        painter.drawPolygon(triangle);
        painter.setPen(palette().color(QPalette::WindowText));
        painter.drawText(rect().adjusted(0, 0, 0, -3), Qt::AlignVCenter | Qt::AlignLeft, text());
        painter.setRenderHint(QPainter::Antialiasing, false);
        painter.fillRect(0, height() - 2, width(), 1, theme.rule);
        if (hasFocus()) {
            painter.setPen(QPen(theme.focus, 2));
            painter.setBrush(Qt::NoBrush);
            painter.drawRect(rect().adjusted(1, 1, -1, -2));
        }
    }
};

/// True if `pointer` is `key` or lies in it.
bool liesIn(const QString& pointer, const QString& key) {
    return pointer.startsWith(key) &&
           (pointer.size() == key.size() || pointer[key.size()] == QLatin1Char('/'));
}

}  // namespace

Form::Form(SiteDocument& document, ItemKind kind, QWidget* parent)
    : QWidget(parent),
      document_(document),
      item_{kind, 0},
      grid_(new QGridLayout(this)),
      stray_problems_(new QLabel(this)) {
    grid_->setContentsMargins(0, 0, 0, 0);
    grid_->setHorizontalSpacing(column_gap);
    grid_->setVerticalSpacing(row_gap);
    grid_->setColumnMinimumWidth(0, ems(this, label_ems));
    grid_->setColumnStretch(1, 1);
    stray_problems_->setObjectName(QStringLiteral("form.problems"));
    stray_problems_->setWordWrap(true);
    stray_problems_->setTextFormat(Qt::PlainText);
    stray_problems_->hide();
    grid_->addWidget(stray_problems_, next_row_++, 0, 1, 2);
}

void Form::beginSection(const QString& title, bool folded) {
    const int index = static_cast<int>(sections_.size());
    Section section;
    if (index > 0) {
        section.spacer = new QWidget(this);
        section.spacer->setFixedHeight(section_gap);
        grid_->addWidget(section.spacer, next_row_++, 0, 1, 2);
    }
    section.heading = new SectionHeading(this);
    section.heading->setObjectName(QStringLiteral("section.%1").arg(index));
    section.heading->setText(title);
    section.heading->setAccessibleName(title);
    section.heading->setCheckable(true);
    section.heading->setFont(scaled(font(), 1.0, QFont::DemiBold));
    section.heading->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    section.heading->setFocusPolicy(Qt::TabFocus);
    section.heading->setToolTip(tr("Fold or unfold"));
    grid_->addWidget(section.heading, next_row_++, 0, 1, 2);
    connect(section.heading, &QToolButton::clicked, this,
            [this, index](bool open) { setFolded(index, !open); });
    sections_.append(section);
    setFolded(index, folded);
}

void Form::addField(Field* field) {
    Row row{field, nullptr, static_cast<int>(sections_.size()) - 1};
    auto* label = new QLabel(field->label(), this);
    label->setTextFormat(Qt::PlainText);
    label->setBuddy(field->editor());
    label->setWordWrap(true);
    label->setToolTip(field->toolTip());
    row.label = label;
    if (field->isWide()) {
        grid_->addWidget(label, next_row_++, 0, 1, 2);
        grid_->addWidget(field, next_row_++, 0, 1, 2);
    } else {
        // The first line of the label stands level with the text of the editor.
        const int offset = std::max(0, (controlHeight(this) - label->fontMetrics().height()) / 2);
        label->setContentsMargins(0, offset, 0, 0);
        grid_->addWidget(label, next_row_, 0, Qt::AlignTop);
        grid_->addWidget(field, next_row_++, 1, Qt::AlignTop);
    }
    rows_.append(row);
    connect(field, &Field::labelChanged, this, &Form::updateVisibility);
    connect(field, &Field::problemShown, this, [this, section = row.section, field] {
        if (section >= 0 && !field->shownProblem().isEmpty()) setFolded(section, false);
    });
}

void Form::addNote(const QString& text) {
    QLabel* note = quietLabel(text, this);
    grid_->addWidget(note, next_row_++, 0, 1, 2);
    if (!sections_.isEmpty()) sections_.last().notes.append(note);
}

void Form::setFolded(int section, bool folded) {
    Section& it = sections_[section];
    it.folded = folded;
    it.heading->setChecked(!folded);
    updateVisibility();
}

void Form::updateVisibility() {
    for (const Row& row : std::as_const(rows_)) {
        const bool folded = row.section >= 0 && sections_[row.section].folded;
        const bool shown = !folded && row.field->isWanted();
        row.field->setVisible(shown);
        row.label->setVisible(shown && !row.field->isLabelledByHeading());
    }
    for (const Section& section : std::as_const(sections_))
        for (QWidget* note : section.notes) note->setVisible(!section.folded);
}

void Form::setIndex(int index) {
    item_.index = index;
    if (!exists(document_.site(), item_)) return;
    for (const Row& row : std::as_const(rows_)) row.field->refresh(true);
    updateVisibility();
}

void Form::refresh() {
    if (!exists(document_.site(), item_)) return;
    for (const Row& row : std::as_const(rows_)) row.field->refresh(false);
    updateVisibility();
}

void Form::setProblems(const Problems& problems) {
    QHash<const Field*, QStringList> of_field;
    QStringList stray;
    for (const Problem& problem : problems) {
        const QString pointer = QString::fromStdString(problem.where);
        if (itemAt(pointer) != item_) continue;
        const QString within = pointer.mid(pointerOf(item_).size());
        const Field* best = nullptr;
        for (const Row& row : std::as_const(rows_))
            if (liesIn(within, row.field->key()) && row.field->isWanted() &&
                (!best || row.field->key().size() > best->key().size()))
                best = row.field;
        QString what = Words::sentence(QString::fromStdString(problem.what));
        if (!best) {
            stray << what;
            continue;
        }
        bool is_row = false;
        const int row_of_table =
            within.mid(best->key().size() + 1).section(QLatin1Char('/'), 0, 0).toInt(&is_row);
        if (best->isWide() && is_row) what = tr("Row %1: %2").arg(row_of_table + 1).arg(what);
        of_field[best] << what;
    }
    for (const Row& row : std::as_const(rows_))
        row.field->setProblem(of_field.value(row.field).join(QLatin1Char('\n')));
    QPalette colours;
    colours.setColor(QPalette::WindowText, faultColour(palette()));
    stray_problems_->setPalette(colours);
    stray_problems_->setText(stray.join(QLatin1Char('\n')));
    stray_problems_->setVisible(!stray.isEmpty());
}

bool Form::focusField(const QString& pointer) {
    const QString within = pointer.mid(pointerOf(item_).size());
    const Row* best = nullptr;
    for (const Row& row : std::as_const(rows_))
        if (liesIn(within, row.field->key()) &&
            (!best || row.field->key().size() > best->field->key().size()))
            best = &row;
    if (!best || !best->field->isWanted()) return false;
    if (best->section >= 0) setFolded(best->section, false);
    best->field->editor()->setFocus(Qt::OtherFocusReason);
    return true;
}

void Form::focusFirst() {
    if (!rows_.isEmpty()) rows_.first().field->editor()->setFocus(Qt::OtherFocusReason);
}

void Form::commitPending() {
    for (const Row& row : std::as_const(rows_)) row.field->commitPending();
}

QString Form::describe(const QString& label) const {
    const QString name = nameOf(document_.site(), item_);
    const QString first_small = label.left(1).toLower() + label.mid(1);
    return name.isEmpty() ? first_small : tr("%1: %2").arg(name, first_small);
}

QString Form::commit(const QString& label, const QString& key,
                     const std::function<QString(Site&)>& edit) const {
    return document_.tryEdit(describe(label), edit, pointerTo(key));
}

}  // namespace ullage::ui
