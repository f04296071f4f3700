// Which controls move which deform bones, at which stop of which switch?
#include <algorithm>

#include "text.hpp"
#include "view_reach_page.hpp"
#include "views.hpp"
#include "words.hpp"

namespace ligament {

namespace {

std::size_t count_of(const Subject& subject, Verdict verdict) {
    const std::vector<Attachment>& deform = subject.facts.attachment.deform;
    return static_cast<std::size_t>(
        std::count_if(deform.begin(), deform.end(), [&](const Attachment& entry) { return entry.verdict == verdict; }));
}

std::string verdicts_text(const Subject& subject) {
    const std::size_t all = subject.facts.attachment.deform.size();
    std::string text = number_of(all, "deform bone");
    if (count_of(subject, Verdict::attached) == all) return text + ", all attached";
    for (Verdict verdict : {Verdict::orphaned, Verdict::root_only, Verdict::carried})
        if (const std::size_t count = count_of(subject, verdict))
            text += ", " + std::to_string(count) + " " + std::string(name_of(verdict));
    return text;
}

std::vector<std::string> subtitle(const Subject& subject, const ReachPlan& plan) {
    std::string counts = verdicts_text(subject) + " \u00b7 " + number_of(plan.bands.size(), "limb");
    if (subject.facts.is_default_state)
        counts += " \u00b7 " + (plan.switches == 0 ? std::string("no switches")
                                : plan.switches == 1
                                    ? std::string("1 switch")
                                    : std::to_string(plan.switches) + " switches, one at a time, the others at their default");
    else
        counts += " \u00b7 " + std::string("in state ") + cut_in_middle(drawable(subject.facts.state_name), row_size, 300);
    std::string rule =
        "a limb is a group with deform bones; controls on the left move the deform bones on the right, and so do those named "
        "under \"all by\"";
    if (plan.is_counted)
        rule = "above " + std::to_string(most_bones_joined) +
               " bones controls and deform bones are counted: all that move at a stop, and all controls that move some of them";
    return {std::move(counts), std::move(rule)};
}

}  // namespace

std::vector<Sheet> plan_of_reach(const Subject& subject, std::uint32_t, Room room) {
    const ReachPlan plan = plan_bands(subject);
    ReachPages pages(subject, room);
    if (plan.bands.empty())
        pages.scene().add(label_at(0, 2, "no bone of this rig deforms, so that controls have nothing to move", Tone::ink));
    add_loose_lane(pages);
    for (const ReachBand& band : plan.bands) add_band(pages, plan, band);
    pages.finish();
    for (Sheet& sheet : pages.sheets) sheet.subtitle = subtitle(subject, plan);
    number_sheets(pages.sheets, subject, "reach", drawable_title(subject, "which controls move which deform bones"));
    return std::move(pages.sheets);
}

}  // namespace ligament
