// What does one property drive, gate and move?
#include <utility>

#include "text.hpp"
#include "view_switch_page.hpp"
#include "views.hpp"
#include "words.hpp"

namespace ligament {

namespace {

std::vector<std::string> subtitle(const SwitchPlan& plan) {
    std::vector<std::string> lines;
    if (plan.targets == 0) return {"it drives nothing that counts: no weight, no channel, no other property"};
    std::string text;
    for (const auto& [count, noun] :
         {std::pair{plan.weights, "weight"}, {plan.channels, "channel"}, {plan.properties, "property"}})
        if (count) text += (text.empty() ? "drives " : ", ") + number_of(count, noun);
    if (plan.constraints) text += " \u00b7 gates " + number_of(plan.constraints, "constraint");
    text += plan.bones_moved ? " \u00b7 can move " + number_of(plan.bones_moved, "bone") : " \u00b7 moves no bone";
    if (plan.deform_moved) text += ", " + std::to_string(plan.deform_moved) + " of them deform";
    lines.push_back(std::move(text));
    if (plan.gaps)
        lines.push_back(number_of(plan.gaps, "gap") +
                        ": a bone of a run whose weight is left out while those of its neighbours are driven");
    if (plan.is_folded)
        lines.push_back("more than " + std::to_string(most_targets_named) +
                        " targets: those of one group that are alike are counted as one");
    return lines;
}

std::string number_in_name(PropertyId property) {
    const std::string number = std::to_string(property + 1);
    return number.size() < 2 ? "0" + number : number;
}

}  // namespace

std::vector<std::uint32_t> switches_to_draw(const Subject& subject) {
    if (subject.options.property) return {*subject.options.property};
    std::vector<std::uint32_t> properties;
    for (const FanOut& fan : subject.facts.fan_out)
        if (fan.targets() > 0) properties.push_back(fan.property);
    return properties;
}

std::vector<Sheet> plan_of_switch(const Subject& subject, std::uint32_t item, Room room) {
    const SwitchPlan plan = plan_targets(subject, item);
    std::vector<Sheet> sheets = draw_switch_pages(subject, plan, room);
    for (Sheet& sheet : sheets) {
        sheet.subtitle = subtitle(plan);
        sheet.subject = item;
    }
    const std::string& name = subject.rig.properties[item].name;
    number_sheets(sheets, subject, "switch-" + number_in_name(item) + "-" + file_word(name),
                  drawable_title(subject, "what " + isolated(drawable(name)) + " drives, gates and moves"));
    return sheets;
}

}  // namespace ligament
