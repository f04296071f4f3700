// How does it look? From the rig's facts to one SVG document, in bounded time.
#include "ligament/drawing.hpp"

#include <algorithm>
#include <string>
#include <utility>

#include "bounded.hpp"
#include "fold.hpp"
#include "layout.hpp"
#include "plan.hpp"
#include "svg.hpp"
#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

/// Larger layouts do not end in any time that a reader waits, and are not begun.
constexpr std::size_t layout_limit = 20'000;

/// Groups are few: a moment suffices for most rigs, however little was left for the bones.
constexpr std::chrono::milliseconds least_for_groups{2'000};

struct Attempt {
    std::optional<Layout> layout;
    std::string why_not;
};

Attempt lay_out(const LayoutTask& task, std::chrono::milliseconds limit) {
    if (task.nodes.empty()) return {Layout{}, {}};
    if (const std::size_t size = task.nodes.size() + task.links.size(); size > layout_limit)
        return {std::nullopt, std::to_string(size) + " boxes and arrows are more than the " + std::to_string(layout_limit) +
                                  " that one layout takes"};
    const BoundedResult result = run_bounded(limit, [&] { return flatten(lay_out_best(task)); });
    if (result.timed_out) return {std::nullopt, "the layout took longer than " + std::to_string(limit.count()) + " ms"};
    if (!result.values) return {std::nullopt, result.error};
    Attempt attempt{unflatten(*result.values, task), {}};
    if (!attempt.layout) attempt.why_not = "the layout came back incomplete";
    return attempt;
}

void say(std::string& notice, const std::string& sentence) { notice += (notice.empty() ? "" : "; ") + sentence; }

/// Says on the page as in the notice what the reader should know.
void say_on_page(Plan& plan, const std::string& sentence) { plan.subtitle.push_back(sentence); }

std::string draw_plan(const Plan& plan, Layout layout) { return write_svg(plan, compose(plan, std::move(layout))); }

}  // namespace

Drawing draw(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const DrawingOptions& options) {
    Drawing drawing;
    if (options.around && *options.around >= rig.bones.size()) {
        drawing.error = "there is no bone " + std::to_string(*options.around) + " to draw around, the rig has " +
                        std::to_string(rig.bones.size());
        return drawing;
    }
    FoldedRig folded = fold(rig, dependencies, facts);
    std::string part;
    if (options.around) {
        folded = keep_around(folded, *options.around, options.hops);
        part = "showing " + std::to_string(folded.bones_kept) + " of " + number_of(folded.bones, "bone") + ": up to " +
               std::to_string(options.hops) + (options.hops == 1 ? " dependency from " : " dependencies from ") +
               isolated(drawable(rig.bones[*options.around].name));
        if (folded.bones_kept < folded.bones) say(drawing.notice, part);
    }
    Plan plan = plan_bones(rig, dependencies, facts, folded);
    const std::string state = facts.is_default_state ? "" : "in state " + isolated(drawable(facts.state_name));
    if (!state.empty()) say_on_page(plan, state);
    plan.in_state = !facts.is_default_state;
    if (!part.empty()) say_on_page(plan, part);
    Attempt attempt = lay_out(task_of(plan), options.time_limit);
    if (!attempt.layout) {
        std::string why = attempt.why_not + ", so each group is drawn as one box";
        plan = plan_groups(rig, dependencies, facts, folded);
        attempt = lay_out(task_of(plan), std::max(options.time_limit, least_for_groups));
        if (!attempt.layout) {
            why += ", in rows";
            attempt.layout = lay_out_grid(task_of(plan));
        }
        if (!state.empty()) say_on_page(plan, state);
        plan.in_state = !facts.is_default_state;
        if (!part.empty()) say_on_page(plan, part);
        say_on_page(plan, why);
        say(drawing.notice, why);
    }
    drawing.svg = draw_plan(plan, *std::move(attempt.layout));
    return drawing;
}

}  // namespace ligament
