// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/outline/outline_model.h"

#include "ui/document/item_edits.h"
#include "ui/document/site_document.h"
#include "ui/theme/status.h"

#include <QFont>

namespace ullage::ui {

namespace {

constexpr quintptr top_level = 0;  ///< else: 1 + place of the section

QString keyOf(ItemKind kind, const QString& name) {
    return QStringLiteral("%1/%2").arg(static_cast<int>(kind)).arg(name);
}

/// overruns before tight before fits before note.
bool isWorse(Level a, Level b) {
    const auto rank = [](Level level) {
        switch (level) {
            case Level::overruns:
                return 3;
            case Level::tight:
                return 2;
            case Level::fits:
                return 1;
            case Level::note:
                break;
        }
        return 0;
    };
    return rank(a) > rank(b);
}

}  // namespace

OutlineModel::OutlineModel(SiteDocument& document, QObject* parent)
    : QAbstractItemModel(parent), document_(document), site_(document.siteValue()) {
    connect(&document, &SiteDocument::replaced, this, &OutlineModel::resetSite);
    connect(&document, &SiteDocument::siteChanged, this, &OutlineModel::readSite);
    resetSite();
}

void OutlineModel::resetSite() {
    beginResetModel();
    site_ = document_.siteValue();
    for (std::size_t i = 0; i < listed_kinds.size(); ++i)
        counts_[i] = countOf(*site_, listed_kinds[i]);
    statuses_.clear();
    faulty_.clear();
    endResetModel();
}

void OutlineModel::readSite() {
    site_ = document_.siteValue();
    for (std::size_t i = 0; i < listed_kinds.size(); ++i) {
        const int now = countOf(*site_, listed_kinds[i]);
        const QModelIndex section = indexOfSection(listed_kinds[i]);
        if (now > counts_[i]) {
            beginInsertRows(section, counts_[i], now - 1);
            counts_[i] = now;
            endInsertRows();
        } else if (now < counts_[i]) {
            beginRemoveRows(section, now, counts_[i] - 1);
            counts_[i] = now;
            endRemoveRows();
        }
    }
    announceAll();
}

void OutlineModel::announceAll() {
    emit dataChanged(index(0, 0), index(rowCount() - 1, 0));
    for (const ItemKind kind : listed_kinds) {
        const QModelIndex section = indexOfSection(kind);
        const int rows = rowCount(section);
        if (rows > 0) emit dataChanged(index(0, 0, section), index(rows - 1, 0, section));
    }
}

void OutlineModel::setAnswer(std::shared_ptr<const Answer> answer) {
    statuses_.clear();
    if (answer) {
        for (const Finding& finding : answer->findings) {
            const auto item = itemAt(QString::fromStdString(finding.about));
            if (!item || item->kind == ItemKind::site || finding.level == Level::note) continue;
            const QString key = keyOf(item->kind, nameOf(answer->site, *item));
            const auto known = statuses_.constFind(key);
            if (known == statuses_.constEnd() || isWorse(finding.level, known->level))
                statuses_[key] = {finding.level, QString::fromStdString(finding.text)};
        }
        // Boxes and sends have a status of their own, whatever the findings say.
        for (const BoxOutlook& box : answer->outlook.boxes)
            statuses_[keyOf(ItemKind::box, QString::fromStdString(box.name))].level =
                status_of(box, answer->outlook.horizon_days);
        for (const SendOutlook& send : answer->outlook.sends)
            statuses_[keyOf(ItemKind::send, QString::fromStdString(send.name))].level =
                status_of(send, answer->outlook.confidence);
    }
    announceAll();
}

void OutlineModel::setProblems(const Problems& problems) {
    faulty_.clear();
    for (const Problem& problem : problems)
        if (const auto item = itemAt(QString::fromStdString(problem.where)))
            faulty_.insert(pointerOf(*item));
    announceAll();
}

QModelIndex OutlineModel::indexOf(ItemRef item) const {
    if (item.kind == ItemKind::site) return index(0, 0);
    const QModelIndex section = indexOfSection(item.kind);
    return item.index < rowCount(section) ? index(item.index, 0, section) : QModelIndex();
}

QModelIndex OutlineModel::indexOfSection(ItemKind kind) const {
    for (std::size_t i = 0; i < listed_kinds.size(); ++i)
        if (listed_kinds[i] == kind) return createIndex(static_cast<int>(i) + 1, 0, top_level);
    return {};
}

std::optional<ItemRef> OutlineModel::itemOf(const QModelIndex& at) const {
    if (!at.isValid()) return std::nullopt;
    if (at.internalId() == top_level)
        return at.row() == 0 ? std::optional(ItemRef{}) : std::nullopt;
    return ItemRef{kindOf(at), at.row()};
}

ItemKind OutlineModel::kindOf(const QModelIndex& at) const {
    if (!at.isValid()) return ItemKind::site;
    if (at.internalId() != top_level) return listed_kinds[at.internalId() - 1];
    return at.row() == 0 ? ItemKind::site : listed_kinds[static_cast<std::size_t>(at.row()) - 1];
}

QModelIndex OutlineModel::index(int row, int column, const QModelIndex& parent) const {
    if (!hasIndex(row, column, parent)) return {};
    if (!parent.isValid()) return createIndex(row, column, top_level);
    return createIndex(row, column, static_cast<quintptr>(parent.row()));
}

QModelIndex OutlineModel::parent(const QModelIndex& child) const {
    if (!child.isValid() || child.internalId() == top_level) return {};
    return createIndex(static_cast<int>(child.internalId()), 0, top_level);
}

int OutlineModel::rowCount(const QModelIndex& parent) const {
    if (!parent.isValid()) return static_cast<int>(listed_kinds.size()) + 1;
    if (parent.column() != 0 || parent.internalId() != top_level || parent.row() == 0) return 0;
    return counts_[static_cast<std::size_t>(parent.row()) - 1];
}

int OutlineModel::columnCount(const QModelIndex&) const { return 1; }

const OutlineModel::Status* OutlineModel::statusOf(ItemRef item) const {
    const auto found = statuses_.constFind(keyOf(item.kind, nameOf(*site_, item)));
    return found == statuses_.constEnd() ? nullptr : &*found;
}

bool OutlineModel::isFaulty(ItemRef item) const { return faulty_.count(pointerOf(item)) > 0; }

QVariant OutlineModel::data(const QModelIndex& at, int role) const {
    if (!at.isValid()) return {};
    const auto item = itemOf(at);
    if (!item) {
        switch (role) {
            case Qt::DisplayRole:
            case Qt::AccessibleTextRole:
                return sectionTitle(kindOf(at));
            case SectionRole:
                return true;
            default:
                return {};
        }
    }
    const QString name = nameOf(*site_, *item);
    const Status* status = statusOf(*item);
    const bool faulty = isFaulty(*item);
    const QString status_text = faulty   ? tr("To mend")
                                : status ? status_word(status->level)
                                         : QString();
    switch (role) {
        case Qt::DisplayRole:
            return name.isEmpty() && item->kind == ItemKind::site ? tr("Unnamed site") : name;
        case Qt::EditRole:
            return name;
        case Qt::ToolTipRole:
            if (faulty) return tr("Something here is to be mended: see its form.");
            return status && !status->sentence.isEmpty() ? status->sentence : name;
        case Qt::AccessibleTextRole:
            return status_text.isEmpty() ? name : tr("%1, %2").arg(name, status_text);
        case PointerRole:
            return pointerOf(*item);
        case StatusRole:
            return status && !faulty ? QVariant(static_cast<int>(status->level)) : QVariant();
        case StatusTextRole:
            return status_text;
        case FaultyRole:
            return faulty;
        case SectionRole:
            return false;
        default:
            return {};
    }
}

bool OutlineModel::setData(const QModelIndex& at, const QVariant& value, int role) {
    const auto item = itemOf(at);
    if (!item || role != Qt::EditRole) return false;
    const QString name = value.toString();
    if (name == nameOf(*site_, *item)) return true;
    const QString refusal = document_.tryEdit(
        tr("name of %1").arg(nameOf(*site_, *item)),
        [&](Site& site) { return renameItem(site, *item, name); },
        pointerOf(*item) + QStringLiteral("/name"));
    if (!refusal.isEmpty()) emit renameRefused(refusal);
    return refusal.isEmpty();
}

Qt::ItemFlags OutlineModel::flags(const QModelIndex& at) const {
    if (!at.isValid()) return Qt::NoItemFlags;
    if (!itemOf(at)) return Qt::ItemIsEnabled | Qt::ItemIsSelectable;
    Qt::ItemFlags flags = Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsEditable;
    if (at.internalId() != top_level) flags |= Qt::ItemNeverHasChildren;
    return flags;
}

}  // namespace ullage::ui
