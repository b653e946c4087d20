// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/kind_forms.h"
#include "ui/forms/shared_fields.h"

namespace ullage::ui {

namespace {

class BoxForm : public CapacityForm<Box> {
    Q_DECLARE_TR_FUNCTIONS(ullage::ui::BoxForm)

public:
    BoxForm(SiteDocument& site_document, QWidget* parent)
        : CapacityForm<Box>(
              site_document, ItemKind::box,
              [](Site& site, int index) -> Box& {
                  return site.boxes[static_cast<std::size_t>(index)];
              },
              parent) {
        beginSection(tr("Box"));
        name(tr("Name"));
        value(tr("In service from"), QStringLiteral("/in_service"), optionalDate(),
              &Box::in_service)
            ->setPlaceholder(tr("already there"))
            ->setHint(tr("A date, such as 2026-12-01; empty: it is there already."));

        beginSection(tr("Size"));
        addCapacity(tr("unknown: not forecast"));
        value(tr("Ceiling"), QStringLiteral("/ceiling"), share(), &Box::ceiling)
            ->setHint(tr("The share of the usable size that it should not pass."));
        quantity<Bytes>(
            tr("Other data there"), QStringLiteral("/other_data"),
            [](const Box& it) {
                return it.other_data == Entered<Bytes>() ? std::optional<Entered<Bytes>>()
                                                         : std::optional(it.other_data);
            },
            [](Box& it, const std::optional<Entered<Bytes>>& typed) {
                it.other_data = typed.value_or(Entered<Bytes>());
            },
            true)
            ->setPlaceholder(tr("none"))
            ->setHint(tr("Stored there besides, and taken to stay as it is."));

        beginSection(tr("Buying and speed"));
        quantity(tr("Lead time"), QStringLiteral("/lead_time"), &Box::lead_time)
            ->setHint(tr("From the order to the day it runs, such as 21 d."));
        quantity(tr("Disk rate"), QStringLiteral("/disk_rate"), &Box::disk_rate)
            ->setPlaceholder(tr("no limit"))
            ->setHint(tr("What its drives read or write over hours, such as 180 MB/s."));
        addEnclosure();

        beginSection(tr("Planned changes"));
        table<BoxChange>(
            tr("Changes"), QStringLiteral("/changes"), changeColumns(),
            [](Box& it) -> std::vector<BoxChange>& { return it.changes; }, changeCells,
            [this](BoxChange& change, int column, const QString& typed) {
                return writeChangeCell(change, now(), column, typed);
            },
            [this](const std::vector<BoxChange>&) {
                return freshChange(now(), document().site().as_of);
            },
            false)
            ->setEmptyText(tr("None: it stays as it is."))
            ->setLabelledByHeading();
    }

private:
    /// An enclosure that says nothing is none.
    static void dropIfEmpty(Box& box) {
        if (box.enclosure && *box.enclosure == Enclosure{}) box.enclosure.reset();
    }
    static Enclosure& enclosureOf(Box& box) {
        return box.enclosure ? *box.enclosure : box.enclosure.emplace();
    }

    void addEnclosure() {
        value<std::optional<int>>(
            tr("Bays"), QStringLiteral("/enclosure/bays"), optionalWholeNumber(),
            [](const Box& it) { return it.enclosure ? it.enclosure->bays : std::optional<int>(); },
            [](Box& it, std::optional<int> typed) {
                enclosureOf(it).bays = typed;
                dropIfEmpty(it);
            })
            ->setPlaceholder(tr("no limit"))
            ->setHint(tr("How many drives go in; an offer with more does not."));
        quantity<Power>(
            tr("Power supply"), QStringLiteral("/enclosure/power"),
            [](const Box& it) {
                return it.enclosure ? it.enclosure->power : std::optional<Entered<Power>>();
            },
            [](Box& it, const std::optional<Entered<Power>>& typed) {
                enclosureOf(it).power = typed;
                dropIfEmpty(it);
            },
            true)
            ->setPlaceholder(tr("no limit"))
            ->setHint(tr("What its supply gives, such as 250 W; an offer that draws more does "
                         "not go in."));
    }
};

class OfferForm : public CapacityForm<Offer> {
    Q_DECLARE_TR_FUNCTIONS(ullage::ui::OfferForm)

public:
    OfferForm(SiteDocument& site_document, QWidget* parent)
        : CapacityForm<Offer>(
              site_document, ItemKind::offer,
              [](Site& site, int index) -> Offer& {
                  return site.offers[static_cast<std::size_t>(index)];
              },
              parent) {
        beginSection(tr("Offer"));
        name(tr("Name"));
        reference(tr("For the box"), QStringLiteral("/box"), ItemKind::box, &Offer::box);
        choice<Offer::As>(tr("Goes in"), QStringLiteral("/as"),
                          {{Offer::As::drives, tr("in place of the box's drives")},
                           {Offer::As::added, tr("beside the box's drives")},
                           {Offer::As::box, tr("in place of the whole box")}},
                          &Offer::as);
        quantity(tr("Price"), QStringLiteral("/price"), &Offer::price)
            ->setPlaceholder(tr("such as 2150 EUR"))
            ->setHint(
                tr("Of all of it, in the site's currency, which may stand behind the number."));
        quantity(tr("Power"), QStringLiteral("/power"), &Offer::power)
            ->setHint(tr("What it draws all day, such as 48 W."));
        quantity(tr("Life"), QStringLiteral("/life"), &Offer::life)
            ->setHint(tr("For how long it is counted on, such as 5 y."));
        quantity(tr("Lead time"), QStringLiteral("/lead_time"), &Offer::lead_time)
            ->setPlaceholder(tr("as its box's"))
            ->setHint(tr("From the order to the day it runs, such as 21 d."));

        beginSection(tr("Size"));
        addCapacity({});

        beginSection(tr("Rebuilding a drive"));
        quantity(tr("Drive rate"), QStringLiteral("/drive_rate"), &Offer::drive_rate)
            ->setHint(tr("Of one drive at its fastest, as its sheet says it, such as 260 MB/s."));
        value(tr("Failing in a year"), QStringLiteral("/failure_rate"), optionalShare(),
              &Offer::failure_rate)
            ->setHint(tr("The share of such drives that fail in a year, such as 1.5 %."));
    }
};

}  // namespace

Form* makeBoxForm(SiteDocument& document, QWidget* parent) { return new BoxForm(document, parent); }

Form* makeOfferForm(SiteDocument& document, QWidget* parent) {
    return new OfferForm(document, parent);
}

}  // namespace ullage::ui
