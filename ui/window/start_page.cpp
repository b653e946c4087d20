// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/start_page.h"

#include "ui/forms/quantity_field.h"
#include "ui/gallery/sample_gallery.h"
#include "ui/window/look.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>
#include <QGridLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

namespace ullage::ui {

namespace {

constexpr int most_recent = 5;
constexpr int outer_margin = 40, column_gap = 56;  ///< pixels

/// A button that reads like a line of text: name, then where it is.
QPushButton* lineButton(const QString& text, const QString& detail, QWidget* parent) {
    auto* button = new QPushButton(parent);
    QString label = text;
    button->setText(label.replace(QLatin1Char('&'), QLatin1String("&&")));
    button->setToolTip(detail);
    button->setAccessibleName(text);
    button->setAccessibleDescription(detail);
    button->setFlat(true);
    button->setStyleSheet(QStringLiteral("text-align: left; padding: 4px 0px;"));
    return button;
}

void clearLayout(QVBoxLayout* layout) {
    while (QLayoutItem* item = layout->takeAt(0)) {
        if (item->widget()) item->widget()->deleteLater();
        delete item;
    }
}

QString withoutSuffix(const QString& path) {
    QString name = QFileInfo(path).fileName();
    const QString suffix = QStringLiteral(".site.json");
    if (name.endsWith(suffix)) name.chop(suffix.size());
    return name;
}

}  // namespace

QString samplesFolder() {
    const QString here = QCoreApplication::applicationDirPath();
    for (const QString& folder :
         {qEnvironmentVariable("ULLAGE_SAMPLES"), here + QStringLiteral("/../sample-sites"),
          here + QStringLiteral("/../share/ullage/sample-sites"),
          QStringLiteral(ULLAGE_SOURCE_SAMPLES)})
        if (!folder.isEmpty() && QFileInfo(folder).isDir()) return QDir(folder).canonicalPath();
    return {};
}

StartPage::StartPage(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("startPage"));
}

void StartPage::showEvent(QShowEvent* event) {
    make();
    QWidget::showEvent(event);
}

void StartPage::make() {
    if (gallery_) return;
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(0, 0, 0, 0);
    auto* area = new QScrollArea(this);
    area->setFrameShape(QFrame::NoFrame);
    area->setWidgetResizable(true);
    area->setFocusPolicy(Qt::NoFocus);
    outer->addWidget(area);

    auto* page = new QWidget(area);
    auto* grid = new QGridLayout(page);
    grid->setContentsMargins(outer_margin, outer_margin, outer_margin, outer_margin);
    grid->setHorizontalSpacing(column_gap);
    grid->setVerticalSpacing(6);
    grid->setColumnStretch(0, 1);
    grid->setColumnStretch(3, 1);
    grid->setRowStretch(0, 1);
    grid->setRowStretch(6, 3);
    grid->addWidget(headingLabel(tr("How long will it last, and will it arrive?"), 1.9, page), 1, 1,
                    1, 2);
    QLabel* lead = quietLabel(
        tr("Ullage forecasts how full a storage box gets, when, and whether the line carries the "
           "nightly copy."),
        page);
    grid->addWidget(lead, 2, 1, 1, 2);
    grid->setRowMinimumHeight(3, 24);
    grid->addWidget(makeOpenColumn(), 4, 1, Qt::AlignTop);
    grid->addWidget(makeFiguresColumn(), 4, 2, Qt::AlignTop);
    grid->addWidget(makeSamples(), 5, 1, 1, 2);
    area->setWidget(page);
    page->setAutoFillBackground(false);
    area->viewport()->setAutoFillBackground(false);
    showRecent();
    showSamples();
    area->show();  // what is made for a page in sight does not come to sight by itself
}

QWidget* StartPage::makeOpenColumn() {
    auto* box = new QWidget(this);
    box->setFixedWidth(ems(this, 26));
    auto* column = new QVBoxLayout(box);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    column->addWidget(headingLabel(tr("Open"), 1.15, box));
    auto* open = new QPushButton(tr("&Open a site…"), box);
    open->setMinimumHeight(controlHeight(this) + 6);
    open->setObjectName(QStringLiteral("start.open"));
    connect(open, &QPushButton::clicked, this, &StartPage::openWanted);
    auto* listing = new QPushButton(tr("&Import a snapshot listing…"), box);
    listing->setMinimumHeight(controlHeight(this) + 6);
    listing->setObjectName(QStringLiteral("start.listing"));
    connect(listing, &QPushButton::clicked, this, &StartPage::listingWanted);
    column->addWidget(open);
    column->addWidget(listing);

    recent_box_ = new QWidget(box);
    auto* inside = new QVBoxLayout(recent_box_);
    inside->setContentsMargins(0, 12, 0, 0);
    inside->setSpacing(4);
    inside->addWidget(headingLabel(tr("Recent"), 1.0, recent_box_));
    recent_ = new QVBoxLayout;
    recent_->setSpacing(0);
    inside->addLayout(recent_);
    recent_box_->hide();
    column->addWidget(recent_box_);
    return box;
}

QWidget* StartPage::makeSamples() {
    samples_box_ = new QWidget(this);
    auto* column = new QVBoxLayout(samples_box_);
    column->setContentsMargins(0, 20, 0, 0);
    column->setSpacing(8);
    column->addWidget(headingLabel(tr("Samples (invented)"), 1.15, samples_box_));
    gallery_ = new SampleGallery(samples_box_);
    connect(gallery_, &SampleGallery::chosen, this, &StartPage::sampleChosen);
    column->addWidget(gallery_);
    samples_box_->hide();
    return samples_box_;
}

QWidget* StartPage::makeFiguresColumn() {
    auto* box = new QWidget(this);
    box->setFixedWidth(ems(this, 36));
    auto* grid = new QGridLayout(box);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(12);
    grid->setVerticalSpacing(8);
    grid->setColumnStretch(1, 1);
    grid->addWidget(headingLabel(tr("Start a small site"), 1.15, box), 0, 0, 1, 2);
    QLabel* note =
        quietLabel(tr("Five figures give a first answer; all can be changed after."), box);
    grid->addWidget(note, 1, 0, 1, 2);

    int row = 2;
    const auto add = [&](const QString& label, const QString& key, auto SmallSite::*member,
                         const QString& hint) {
        using Held = std::remove_reference_t<decltype(figures_.*member)>;
        using T = decltype(Held::value);
        typename QuantityField<T>::Value value;
        value.get = [this, member] { return std::optional(figures_.*member); };
        value.set = [this, member](const std::optional<Entered<T>>& typed) {
            figures_.*member = *typed;
            return QString();
        };
        auto* field = new QuantityField<T>(label, key, std::move(value), box);
        field->setHint(hint);
        field->refresh(true);
        auto* words = new QLabel(label, box);
        words->setBuddy(field->editor());
        words->setContentsMargins(0, (controlHeight(this) - words->fontMetrics().height()) / 2, 0,
                                  0);
        grid->addWidget(words, row, 0, Qt::AlignTop);
        grid->addWidget(field, row++, 1);
        fields_.append(field);
    };
    add(tr("Data stored today"), QStringLiteral("/start/live"), &SmallSite::live,
        tr("As stored, without snapshots, such as 4 TB."));
    add(tr("It grows in a year by"), QStringLiteral("/start/growth"), &SmallSite::growth_per_year,
        tr("A size or a share, such as 800 GB or 20 %."));
    add(tr("Written in a day"), QStringLiteral("/start/written"), &SmallSite::written_per_day,
        tr("A size or a share, such as 14 GB or 0.5 %."));
    add(tr("Copies go to a box of"), QStringLiteral("/start/usable"), &SmallSite::usable,
        tr("Its usable size, such as 12 TB."));
    add(tr("Over a line of"), QStringLiteral("/start/up"), &SmallSite::up,
        tr("What the line carries towards the box, such as 100 Mbit/s."));

    auto* start = new QPushButton(tr("&Start"), box);
    start->setObjectName(QStringLiteral("start.create"));
    start->setAutoDefault(true);
    start->setMinimumSize(ems(this, 9), controlHeight(this) + 6);
    grid->addWidget(start, row, 1, Qt::AlignLeft);
    connect(start, &QPushButton::clicked, this, &StartPage::createSite);
    return box;
}

void StartPage::createSite() {
    for (Field* field : std::as_const(fields_)) {
        field->commitPending();
        if (field->shownProblem().isEmpty()) continue;
        field->editor()->setFocus();
        return;
    }
    emit siteWanted(makeSiteHere(figures_));
}

void StartPage::setRecent(const QStringList& paths) {
    recent_paths_ = paths;
    if (gallery_) showRecent();
}

void StartPage::showRecent() {
    clearLayout(recent_);
    int shown = 0;
    for (const QString& path : std::as_const(recent_paths_)) {
        if (shown == most_recent) break;
        if (!QFileInfo::exists(path)) continue;
        QPushButton* button = lineButton(withoutSuffix(path), path, recent_box_);
        button->setObjectName(QStringLiteral("start.recent.%1").arg(shown++));
        connect(button, &QPushButton::clicked, this, [this, path] { emit fileChosen(path); });
        recent_->addWidget(button);
    }
    recent_box_->setVisible(shown > 0);
}

void StartPage::setSamples(const QStringList& paths) {
    sample_paths_ = paths;
    if (gallery_) showSamples();
}

void StartPage::showSamples() {
    gallery_->setSamples(sample_paths_);
    samples_box_->setVisible(gallery_->count() > 0);
}

}  // namespace ullage::ui
