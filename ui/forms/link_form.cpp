// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/item_form.h"
#include "ui/forms/kind_forms.h"
#include "ui/hours/hours_field.h"

#include <algorithm>
#include <initializer_list>

namespace ullage::ui {

namespace {

QList<Choice> wrapperChoices() {
    QList<Choice> choices;
    for (const Wrapper wrapper : {Wrapper::vlan, Wrapper::pppoe, Wrapper::wireguard, Wrapper::esp,
                                  Wrapper::esp_udp, Wrapper::ssh, Wrapper::tls}) {
        const QString word = QString::fromStdString(to_text(wrapper));
        choices.append({word, word});
    }
    return choices;
}

class LinkForm : public ItemForm<Link> {
    Q_DECLARE_TR_FUNCTIONS(ullage::ui::LinkForm)

public:
    LinkForm(SiteDocument& site_document, QWidget* parent)
        : ItemForm<Link>(
              site_document, ItemKind::link,
              [](Site& site, int index) -> Link& {
                  return site.links[static_cast<std::size_t>(index)];
              },
              parent) {
        addLine();
        addHours();
        addWrappers();
        addTransport();
    }

private:
    void addLine() {
        beginSection(tr("Link"));
        name(tr("Name"));
        quantity(tr("Up"), QStringLiteral("/up"), &Link::up)
            ->setHint(tr("The line's own rate towards the box that receives."));
        quantity(tr("Down"), QStringLiteral("/down"), &Link::down)
            ->setHint(tr("The other direction: what a restore gets."));
        quantity(tr("Round trip"), QStringLiteral("/round_trip"), &Link::round_trip)
            ->setHint(tr("There and back, such as 18 ms."));
        value(tr("Packets lost"), QStringLiteral("/loss"), share(), &Link::loss)
            ->setHint(tr("The share of packets that never arrive, such as 0.001 %."));
    }

    void addHours() {
        beginSection(tr("Open hours"));
        const QString week = tr("Week");
        add(new HoursField(
            week, QStringLiteral("/hours/week"),
            {[this] { return now().hours; },
             [this, week](const std::vector<OpenHours>& rows) {
                 commit(week, QStringLiteral("/hours/week"), [&](Site& site) {
                     in(site).hours = rows;
                     return QString();
                 });
             }},
            this))
            ->setLabelledByHeading()
            ->setHint(tr("Drag to open or close hours. Keys: arrows, Shift with arrows, Space."));
        table<OpenHours>(
            tr("Open hours"), QStringLiteral("/hours"),
            {{tr("Days"), 5, {}, tr("such as Mon-Fri or Sat,Sun")},
             {tr("From"), 4, {}, tr("such as 19:00")},
             {tr("To"), 4, {}, tr("such as 06:00; not after “from”: on the next day")},
             {tr("Share"), 4, {}, tr("of the line, such as 80 %")}},
            [](Link& it) -> std::vector<OpenHours>& { return it.hours; },
            [](const OpenHours& open) {
                return QStringList{
                    QString::fromStdString(open.days_text.empty() ? days_text(open.days)
                                                                  : open.days_text),
                    timeOfDay().write(open.from), timeOfDay().write(open.to),
                    share().write(open.share)};
            },
            [](OpenHours& open, int column, const QString& typed) {
                if (column == 0) {
                    const auto days = parse_days(typed.toStdString());
                    if (!days) return QString::fromStdString(days.error());
                    open.days = *days;
                    open.days_text = typed.toStdString();
                } else if (column == 3) {
                    const auto part = share().read(typed);
                    if (!part) return QString::fromStdString(part.error());
                    open.share = *part;
                } else {
                    const auto at = timeOfDay().read(typed);
                    if (!at) return QString::fromStdString(at.error());
                    (column == 1 ? open.from : open.to) = *at;
                }
                return QString();
            },
            [](const std::vector<OpenHours>& hours) {
                OpenHours open;
                open.days = {true, true, true, true, true, false, false};
                if (!hours.empty()) open.days = {false, false, false, false, false, true, true};
                open.days_text = days_text(open.days);
                open.from = 19 * 3600;
                open.to = 6 * 3600;
                return open;
            },
            false)
            ->setEmptyText(tr("Always open, with the whole line."))
            ->setLabelledByHeading();
    }

    void addWrappers() {
        beginSection(tr("Wrapped in, outermost last"));
        table<Wrapper>(
            tr("Wrappers"), QStringLiteral("/wrappers"), {{tr("Wrapper"), 1, wrapperChoices(), {}}},
            [](Link& it) -> std::vector<Wrapper>& { return it.wrappers; },
            [](const Wrapper& wrapper) {
                return QStringList{QString::fromStdString(to_text(wrapper))};
            },
            [](Wrapper& wrapper, int, const QString& chosen) {
                const auto read = parse_wrapper(chosen.toStdString());
                if (!read) return QString::fromStdString(read.error());
                wrapper = *read;
                return QString();
            },
            [](const std::vector<Wrapper>&) { return Wrapper::wireguard; }, true)
            ->setEmptyText(tr("Nothing: TCP straight on the line."))
            ->setLabelledByHeading();
        choice<EspCipher>(tr("ESP cipher"), QStringLiteral("/esp"),
                          {{EspCipher::aes_gcm_16, tr("AES-GCM, tag of 16 bytes")},
                           {EspCipher::chacha20_poly1305, tr("ChaCha20-Poly1305")},
                           {EspCipher::aes_cbc_sha1, tr("AES-CBC with SHA-1")},
                           {EspCipher::aes_cbc_sha256, tr("AES-CBC with SHA-256")},
                           {EspCipher::aes_cbc_sha512, tr("AES-CBC with SHA-512")}},
                          &Link::esp)
            ->setHint(tr("What the ESP tunnel encrypts and authenticates with; here only the "
                         "bytes that it adds count."))
            ->setShownWhen([this] {
                return wraps({Wrapper::esp, Wrapper::esp_udp});
            });
        choice<int>(
            tr("Outer IP version"), QStringLiteral("/outer_ip"),
            {{0, tr("as inside")}, {4, QStringLiteral("4")}, {6, QStringLiteral("6")}},
            [](const Link& it) { return it.outer_ip_version.value_or(0); },
            [](Link& it, int version) {
                it.outer_ip_version.reset();
                if (version != 0) it.outer_ip_version = version;
            })
            ->setHint(tr("Of the packets that carry the tunnel, between its two ends."))
            ->setShownWhen([this] {
                return wraps({Wrapper::wireguard, Wrapper::esp, Wrapper::esp_udp});
            });
    }

    bool wraps(std::initializer_list<Wrapper> any) const {
        return std::find_first_of(now().wrappers.begin(), now().wrappers.end(), any.begin(),
                                  any.end()) != now().wrappers.end();
    }

    void addTransport() {
        beginSection(tr("Transport"));
        value(tr("MTU"), QStringLiteral("/mtu"), wholeNumber(), &Link::mtu)
            ->setHint(tr("Bytes of the outermost IP packet, 576 to 65535."));
        choice<int>(tr("IP version"), QStringLiteral("/ip_version"),
                    {{4, QStringLiteral("4")}, {6, QStringLiteral("6")}}, &Link::ip_version);
        quantity(tr("Receive window"), QStringLiteral("/receive_window"), &Link::receive_window)
            ->setHint(tr("What may be on its way at a time, such as 6 MiB."));
        choice<Congestion>(tr("Congestion control"), QStringLiteral("/congestion"),
                           {{Congestion::cubic, QStringLiteral("CUBIC")},
                            {Congestion::reno, QStringLiteral("Reno")}},
                           &Link::congestion);
        value(tr("Streams"), QStringLiteral("/streams"), wholeNumber(), &Link::streams)
            ->setHint(tr("Parallel connections of one send."));
        choice<Sharing>(tr("Sends share it"), QStringLiteral("/sharing"),
                        {{Sharing::evenly, tr("evenly")}, {Sharing::in_turn, tr("in turn")}},
                        &Link::sharing)
            ->setHint(tr("When several sends want the line at the same time: all of them at once, "
                         "or one after the other, in the order in which they began."));
    }
};

}  // namespace

Form* makeLinkForm(SiteDocument& document, QWidget* parent) {
    return new LinkForm(document, parent);
}

}  // namespace ullage::ui
