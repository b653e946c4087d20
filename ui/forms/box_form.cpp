// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/kind_forms.h"
#include "ui/forms/shared_fields.h"

namespace ullage::ui {

namespace {

class BoxForm : public CapacityForm<Box> {
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
    }
};

class OfferForm : public CapacityForm<Offer> {
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
        quantity(tr("Price"), QStringLiteral("/price"), &Offer::price)
            ->setHint(tr("In the site's currency."));
        quantity(tr("Power"), QStringLiteral("/power"), &Offer::power)
            ->setHint(tr("What it draws all day, such as 48 W."));
        quantity(tr("Life"), QStringLiteral("/life"), &Offer::life)
            ->setHint(tr("For how long it is counted on, such as 5 y."));
        quantity(tr("Lead time"), QStringLiteral("/lead_time"), &Offer::lead_time);

        beginSection(tr("Size"));
        addCapacity({});
    }
};

}  // namespace

Form* makeBoxForm(SiteDocument& document, QWidget* parent) { return new BoxForm(document, parent); }

Form* makeOfferForm(SiteDocument& document, QWidget* parent) {
    return new OfferForm(document, parent);
}

}  // namespace ullage::ui
