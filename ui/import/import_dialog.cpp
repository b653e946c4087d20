// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/import/import_dialog.h"

#include "ui/import/column_memory.h"
#include "ui/theme/words.h"
#include "ui/window/look.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFileInfo>
#include <QHeaderView>
#include <QLabel>
#include <QLocale>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QScrollBar>
#include <QTableWidget>
#include <QVBoxLayout>

#include <algorithm>

namespace ullage::ui {

namespace {

enum Column { name_column, count_column, first_column, last_column, live_column, onto_column, column_count };

constexpr qsizetype most_boxes = 60;  ///< datasets with a choice of their own; of more each goes by its name
constexpr int widest_column_ems = 16;

QTableWidgetItem* cell(const QString& text, Qt::Alignment side = Qt::AlignLeft) {
    auto* item = new QTableWidgetItem(text);
    item->setFlags(Qt::ItemIsEnabled);
    item->setTextAlignment(side | Qt::AlignVCenter);
    return item;
}

/// For a cell with a control on it, which says the same to those who hear it.
QTableWidgetItem* cellUnder(const QWidget* control) {
    auto* item = cell({});
    item->setData(Qt::AccessibleTextRole, control->accessibleName());
    return item;
}

/// As tall as its rows, up to `most` of them; then it scrolls.
void fitHeight(QTableWidget* table, int most) {
    int height = table->horizontalHeader()->sizeHint().height() + 2 * table->frameWidth();
    for (int row = 0; row < std::min(table->rowCount(), most); ++row) height += table->rowHeight(row);
    if (table->horizontalHeader()->length() > table->width()) height += table->horizontalScrollBar()->sizeHint().height();
    table->setFixedHeight(height);
}

}  // namespace

ImportDialog::ImportDialog(const QString& path, const QString& name_in_site, ListingPreview preview, Site site,
                           QWidget* parent)
    : QDialog(parent), path_(path), preview_(std::move(preview)), site_(std::move(site)) {
    setObjectName(QStringLiteral("import"));
    setWindowTitle(tr("Import a snapshot listing"));
    base_.file = name_in_site;
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(20, 16, 20, 14);
    column->setSpacing(8);
    column->addWidget(headingLabel(QFileInfo(path).fileName(), 1.3, this));
    auto* what = quietLabel(tr("What does each column hold? These are its first lines."), this);
    column->addWidget(what);
    column->addWidget(makePreview());
    makeDatasets();
    column->addWidget(datasets_, 1);

    bad_ = new QWidget(this);
    auto* bad_column = new QVBoxLayout(bad_);
    bad_column->setContentsMargins(0, 0, 0, 0);
    bad_column->setSpacing(4);
    bad_heading_ = new QLabel(bad_);
    bad_lines_ = new QPlainTextEdit(bad_);
    bad_lines_->setObjectName(QStringLiteral("import.badLines"));
    bad_lines_->setReadOnly(true);
    bad_lines_->setTabChangesFocus(true);
    bad_lines_->setAccessibleName(tr("Lines that cannot be read"));
    bad_lines_->setFixedHeight(bad_lines_->fontMetrics().lineSpacing() * 4 + 14);
    leave_out_ = new QCheckBox(bad_);
    leave_out_->setObjectName(QStringLiteral("import.leaveOut"));
    bad_heading_->setBuddy(bad_lines_);
    bad_column->addWidget(bad_heading_);
    bad_column->addWidget(bad_lines_);
    bad_column->addWidget(leave_out_);
    column->addWidget(bad_);
    bad_->hide();

    words_ = new QLabel(this);
    words_->setObjectName(QStringLiteral("import.words"));
    words_->setWordWrap(true);
    words_->setTextFormat(Qt::PlainText);
    words_->setMinimumHeight(words_->fontMetrics().lineSpacing() * 3);
    words_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    column->addWidget(words_);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    add_ = buttons->addButton(tr("&Import"), QDialogButtonBox::AcceptRole);
    add_->setObjectName(QStringLiteral("import.accept"));
    add_->setDefault(true);
    column->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &ImportDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(leave_out_, &QCheckBox::toggled, this, &ImportDialog::say);
    connect(datasets_, &QTableWidget::itemChanged, this, &ImportDialog::say);

    QStringList roles;
    for (const std::string& role : preview_.roles) roles << QString::fromStdString(role);
    setRoles(ColumnMemory::recall(preview_).value_or(roles));
    resize(ems(this, 64), ems(this, 40));
    read();
}

// The columns ----------------------------------------------------------------------------------

QWidget* ImportDialog::makePreview() {
    auto* table = new QTableWidget(static_cast<int>(preview_.rows.size()) + 1, static_cast<int>(preview_.columns()), this);
    table->setObjectName(QStringLiteral("import.preview"));
    table->setAccessibleName(tr("First lines of the listing"));
    table->setSelectionMode(QAbstractItemView::NoSelection);
    table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table->setFocusPolicy(Qt::NoFocus);
    table->setTabKeyNavigation(false);
    table->verticalHeader()->setDefaultSectionSize(table->fontMetrics().lineSpacing() + 6);
    table->verticalHeader()->hide();
    table->setWordWrap(false);
    table->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    const QStringList needed = neededRoles();
    for (int c = 0; c < table->columnCount(); ++c) {
        const auto place = static_cast<std::size_t>(c);
        const QString number = tr("Column %1").arg(c + 1);
        const QString name = place < preview_.header.size() ? QString::fromStdString(preview_.header[place]) : number;
        table->setHorizontalHeaderItem(c, new QTableWidgetItem(name.isEmpty() ? number : name));
        auto* box = new QComboBox(table);
        box->setObjectName(QStringLiteral("import.role.%1").arg(c));
        box->setAccessibleName(tr("What %1 holds").arg(name == number ? number : QStringLiteral("“%1”").arg(name)));
        box->addItem(roleText({}), QString());
        for (const QString& role : needed) box->addItem(roleText(role), role);
        connect(box, &QComboBox::currentIndexChanged, this, [this, c] { roleChosen(c); });
        table->setItem(0, c, cellUnder(box));
        table->setCellWidget(0, c, box);
        role_boxes_ << box;
        for (std::size_t row = 0; row < preview_.rows.size(); ++row) {
            const auto& fields = preview_.rows[row];
            table->setItem(static_cast<int>(row) + 1, c,
                           cell(place < fields.size() ? QString::fromStdString(fields[place]) : QString()));
        }
    }
    table->resizeColumnsToContents();
    for (int c = 0; c < table->columnCount(); ++c)
        table->setColumnWidth(c, std::min(std::max(table->columnWidth(c), role_boxes_[c]->sizeHint().width()),
                                          ems(this, widest_column_ems)));
    table->setRowHeight(0, role_boxes_.isEmpty() ? 0 : std::max(role_boxes_[0]->sizeHint().height(), controlHeight(this)));
    fitHeight(table, static_cast<int>(preview_.rows.size()) + 1);
    return table;
}

QStringList ImportDialog::roles() const {
    QStringList roles;
    for (const QComboBox* box : role_boxes_) roles << box->currentData().toString();
    return roles;
}

void ImportDialog::setRoles(const QStringList& roles) {
    for (int c = 0; c < role_boxes_.size(); ++c) {
        const QSignalBlocker quiet(role_boxes_[c]);
        role_boxes_[c]->setCurrentIndex(std::max(0, role_boxes_[c]->findData(roles.value(c))));
    }
}

/// A role has one column: the one that had it before is free.
void ImportDialog::roleChosen(int column) {
    QStringList roles = this->roles();
    for (int c = 0; c < roles.size(); ++c)
        if (c != column && roles[c] == roles[column]) roles[c].clear();
    setRoles(roles);
    read();
}

QStringList ImportDialog::rolesMissing() const {
    QStringList missing = neededRoles();
    for (const QString& role : roles()) missing.removeAll(role);
    return missing;
}

// What the file holds --------------------------------------------------------------------------

void ImportDialog::read() {
    found_ = {};
    base_.columns.clear();
    const QStringList roles = this->roles();
    for (int c = 0; c < roles.size(); ++c)
        base_.columns.push_back(roles[c].isEmpty() ? "-" : roles[c].toStdString());
    reading_ = rolesMissing().isEmpty();
    if (reading_) {
        const auto columns = base_.columns;
        task_.post(
            [this, path = path_, columns](const LatestTask::Turn& turn) {
                FoundListing found = lookInto(path, columns, turn.stop);
                turn.deliver([this, found = std::move(found)] { present(found); });
            },
            Pace::now);
        // What its first row says anyway need not stand in the site.
        const bool by_names = !preview_.header.empty() &&
                              std::equal(roles.begin(), roles.end(), preview_.roles.begin(), preview_.roles.end(),
                                         [](const QString& chosen, const std::string& named) {
                                             const QString role = QString::fromStdString(named);
                                             return chosen == (neededRoles().contains(role) ? role : QString());
                                         });
        if (by_names) base_.columns.clear();
    } else {
        task_.drop();
    }
    fillDatasets();
    say();
}

void ImportDialog::present(FoundListing found) {
    reading_ = false;
    found_ = std::move(found);
    fillDatasets();
    const auto bad = static_cast<int>(found_.bad_line_count);
    bad_heading_->setText(Words::plural(tr("%n line(s) cannot be read:", nullptr, bad), bad));
    leave_out_->setText(Words::plural(tr("&Leave out the %n line(s)", nullptr, bad), bad));
    leave_out_->setChecked(false);
    QStringList lines;
    for (const Problem& problem : found_.bad_lines)
        lines << QStringLiteral("%1: %2").arg(QString::fromStdString(problem.where), QString::fromStdString(problem.what));
    if (const auto more = bad - static_cast<int>(found_.bad_lines.size()); more > 0)
        lines << Words::plural(tr("and %n more", nullptr, more), more);
    bad_lines_->setPlainText(lines.join(QLatin1Char('\n')));
    say();
}

void ImportDialog::makeDatasets() {
    datasets_ = new QTableWidget(0, column_count, this);
    datasets_->setObjectName(QStringLiteral("import.datasets"));
    datasets_->setAccessibleName(tr("Datasets of the listing"));
    datasets_->setHorizontalHeaderLabels(
        {tr("Dataset"), tr("Snapshots"), tr("From"), tr("To"), tr("Live"), tr("Goes to")});
    for (int c = 0; c < column_count; ++c)
        datasets_->horizontalHeaderItem(c)->setTextAlignment(
            (c == count_column || c == live_column ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    datasets_->setSelectionMode(QAbstractItemView::NoSelection);
    datasets_->setTabKeyNavigation(false);
    datasets_->verticalHeader()->hide();
    datasets_->setMinimumHeight(ems(this, 9));
    auto* header = datasets_->horizontalHeader();
    header->setSectionResizeMode(QHeaderView::ResizeToContents);
    header->setSectionResizeMode(name_column, QHeaderView::Stretch);
}

void ImportDialog::fillDatasets() {
    const QSignalBlocker quiet(datasets_);
    datasets_->setRowCount(0);
    datasets_->setRowCount(static_cast<int>(found_.datasets.size()));
    QStringList known;
    for (const Dataset& dataset : site_.datasets) known << QString::fromStdString(dataset.name);
    for (int row = 0; row < datasets_->rowCount(); ++row) {
        const FoundDataset& found = found_.datasets[static_cast<std::size_t>(row)];
        const QString name = nameFor(base_, found);
        auto* chosen = cell(name);
        chosen->setFlags(Qt::ItemIsEnabled | Qt::ItemIsUserCheckable | Qt::ItemIsSelectable);
        chosen->setCheckState(Qt::Checked);
        datasets_->setItem(row, name_column, chosen);
        datasets_->setItem(row, count_column, cell(QLocale().toString(static_cast<qulonglong>(found.snapshots)), Qt::AlignRight));
        const auto day = [](Instant t) { return Words::full_date(std::chrono::floor<std::chrono::days>(t)); };
        datasets_->setItem(row, first_column, cell(day(found.first)));
        datasets_->setItem(row, last_column, cell(day(found.last)));
        datasets_->setItem(row, live_column, cell(Words::bytes(found.live_bytes, Prefixes::decimal), Qt::AlignRight));
        if (static_cast<qsizetype>(found_.datasets.size()) > most_boxes) {
            datasets_->setItem(row, onto_column, cell(known.contains(name) ? name : tr("a new dataset")));
            continue;
        }
        auto* onto = new QComboBox(datasets_);
        onto->setObjectName(QStringLiteral("import.onto.%1").arg(row));
        onto->setAccessibleName(tr("Where %1 goes to").arg(name));
        onto->addItem(tr("a new dataset"), QString());
        for (const QString& other : known) onto->addItem(other, other);
        onto->setCurrentIndex(std::max(0, onto->findData(name)));
        connect(onto, &QComboBox::currentIndexChanged, this, &ImportDialog::say);
        datasets_->setItem(row, onto_column, cellUnder(onto));
        datasets_->setCellWidget(row, onto_column, onto);
        datasets_->setRowHeight(row, std::max(onto->sizeHint().height(), controlHeight(this)));
    }
}

// What will happen -----------------------------------------------------------------------------

ListingPlan ImportDialog::plan() const {
    ListingPlan plan = base_;
    if (leave_out_->isChecked()) plan.lines_left_out = found_.bad_line_count;
    for (int row = 0; row < datasets_->rowCount(); ++row) {
        if (datasets_->item(row, name_column)->checkState() != Qt::Checked) continue;
        WantedDataset wanted{found_.datasets[static_cast<std::size_t>(row)], {}};
        const QString name = nameFor(plan, wanted.found);
        if (const auto* box = qobject_cast<QComboBox*>(datasets_->cellWidget(row, onto_column)))
            wanted.onto = box->currentData().toString();
        else if (datasets_->item(row, onto_column)->text() == name)
            wanted.onto = name;
        plan.wanted.push_back(std::move(wanted));
    }
    return plan;
}

bool ImportDialog::isReady() const {
    if (reading_ || !rolesMissing().isEmpty() || !found_.faults.empty()) return false;
    const ListingPlan plan = this->plan();
    if (plan.wanted.empty() || plan.lines_left_out != found_.bad_line_count) return false;
    QStringList onto;
    for (const WantedDataset& wanted : plan.wanted)
        if (!wanted.onto.isEmpty()) onto << wanted.onto;
    return onto.removeDuplicates() == 0;
}

QString ImportDialog::said() const { return words_->text(); }

void ImportDialog::say() {
    QString words;
    const QStringList missing = rolesMissing();
    const ListingPlan plan = this->plan();
    if (!missing.isEmpty()) {
        QStringList texts;
        for (const QString& role : missing) texts << roleText(role);
        words = tr("Say which column holds: %1.").arg(QLocale().createSeparatedList(texts));
    } else if (reading_) {
        words = tr("Reading the file…");
    } else if (!found_.faults.empty()) {
        QStringList faults;
        for (const Problem& fault : found_.faults) {
            const QString where = QString::fromStdString(fault.where);
            faults << (where.isEmpty() ? QString() : where + QStringLiteral(": ")) + QString::fromStdString(fault.what);
            if (faults.size() == 2) break;
        }
        words = faults.join(QStringLiteral("; "));
    } else if (found_.datasets.empty()) {
        words = tr("No line can be read like that. Are the columns the right ones?");
    } else if (plan.wanted.empty()) {
        words = tr("Tick the datasets that are wanted.");
    } else if (plan.lines_left_out != found_.bad_line_count) {
        words = tr("Some lines cannot be read: mend the file, choose other columns, or leave them out.");
    } else if (!isReady()) {
        words = tr("One dataset cannot be measured twice: choose another, or a new one.");
    } else {
        words = inWords(plan, site_);
    }
    words_->setText(words);
    bad_->setVisible(found_.bad_line_count > 0);
    add_->setEnabled(isReady());
}

void ImportDialog::accept() {
    if (!isReady()) return;
    ColumnMemory::keep(preview_, roles());
    QDialog::accept();
}

}  // namespace ullage::ui
