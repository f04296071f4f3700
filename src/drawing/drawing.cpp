// How does it look? From a rig's facts to pages of SVG, in bounded time.
#include "ligament/drawing.hpp"

#include <algorithm>
#include <charconv>
#include <thread>
#include <utility>

#include "bounded.hpp"
#include "layout.hpp"
#include "paper.hpp"
#include "style.hpp"
#include "text.hpp"
#include "views.hpp"
#include "words.hpp"

namespace ligament {

namespace {

/// One item of one view: what a child process makes pages of.
struct Job {
    const ViewEntry* view = nullptr;
    std::uint32_t item = 0;
};

/// The sheets of an item and the paper that takes them best.
struct Planned {
    std::vector<Sheet> sheets;
    Paper paper = Paper::a4;
};

/// A page of a state says so in its title.
void name_state(const Subject& subject, std::vector<Sheet>& sheets) {
    if (subject.facts.is_default_state) return;
    for (Sheet& sheet : sheets) sheet.title += " \u00b7 in state " + isolated(drawable(subject.facts.state_name));
}

Planned plan_item(const Subject& subject, const Job& job) {
    const Paper wanted = subject.options.paper;
    Planned planned{{}, wanted == Paper::automatic ? Paper::a4 : wanted};
    planned.sheets = job.view->plan(subject, job.item, room_on(planned.paper));
    const bool cramped = std::any_of(planned.sheets.begin(), planned.sheets.end(), [](const Sheet& s) { return s.cramped; });
    if (wanted != Paper::automatic || (planned.sheets.size() <= 1 && !cramped)) return planned;
    Planned larger{job.view->plan(subject, job.item, room_on(Paper::a3)), Paper::a3};
    return cramped || larger.sheets.size() < planned.sheets.size() ? larger : planned;
}

// Pages on their way from a child: texts with their lengths before them, in one row.

void put(std::string& bytes, const std::string& text) { bytes += std::to_string(text.size()) + ":" + text; }

/// The next text of the row; nothing where it does not go on as it should.
std::optional<std::string> take(std::string_view& bytes) {
    std::size_t size = 0;
    const auto [after, fault] = std::from_chars(bytes.data(), bytes.data() + bytes.size(), size);
    const auto digits = static_cast<std::size_t>(after - bytes.data());
    if (fault != std::errc{} || digits >= bytes.size() || bytes[digits] != ':' || bytes.size() - digits - 1 < size)
        return std::nullopt;
    std::string text(bytes.substr(digits + 1, size));
    bytes.remove_prefix(digits + 1 + size);
    return text;
}

std::string make_pages(const Subject& subject, const Job& job) {
    Planned planned = plan_item(subject, job);
    name_state(subject, planned.sheets);
    std::string bytes;
    for (const Sheet& sheet : planned.sheets) {
        put(bytes, sheet.name);
        put(bytes, sheet.title);
        put(bytes, std::to_string(sheet.subject));
        put(bytes, sheet.notice);
        put(bytes, write_svg(sheet, compose(sheet, planned.paper), subject.options.embedded));
    }
    return bytes;
}

void say(std::string& notice, const std::string& sentence) {
    if (!sentence.empty()) notice += (notice.empty() ? "" : "; ") + sentence;
}

/// False where the bytes are not what make_pages gives.
bool add_pages(std::string_view bytes, View view, Drawing& drawing) {
    while (!bytes.empty()) {
        auto name = take(bytes), title = take(bytes), subject = take(bytes), notice = take(bytes), svg = take(bytes);
        if (!svg) return false;
        say(drawing.notice, *notice);
        drawing.pages.push_back(
            {view, *std::move(name), *std::move(title), static_cast<std::uint32_t>(std::stoul(*subject)), *std::move(svg)});
    }
    return true;
}

std::string name_of(const Subject& subject, const Job& job) {
    const std::string view(job.view->name);
    if (job.view->view == View::group && !subject.options.around)
        return "group \"" + isolated(drawable(subject.groups[job.item])) + "\"";
    return "the view " + view;
}

std::vector<BoundedResult> run(const Subject& subject, const std::vector<Job>& jobs) {
    std::vector<BoundedWork> works;
    for (const Job& job : jobs) works.push_back([&subject, &job] { return make_pages(subject, job); });
    const unsigned workers =
        subject.options.workers ? subject.options.workers : std::max(1u, std::thread::hardware_concurrency());
    return run_bounded(works, subject.options.time_limit, workers);
}

/// Pages of what took too long or crashed, made again without a layout of that kind.
BoundedResult run_plainly(const Subject& subject, const Job& job) {
    Subject plain = subject;
    plain.in_rows = true;
    const auto limit = std::max<std::chrono::milliseconds>(subject.options.time_limit, std::chrono::seconds(2));
    return run_bounded({[&] { return make_pages(plain, job); }}, limit, 1).front();
}

std::string why_not(const BoundedResult& result, std::chrono::milliseconds limit) {
    if (result.timed_out) return "took longer than " + std::to_string(limit.count()) + " ms";
    const std::string missing = result.out_of_memory ? std::string() : prepare_layouts();
    return "failed (" + (missing.empty() ? result.error : missing) + ")";
}

/// What has no page, in words.
std::string left_out_of(const Subject& subject, std::span<const View> views) {
    if (subject.options.property || std::find(views.begin(), views.end(), View::switches) == views.end()) return {};
    const std::size_t idle = subject.rig.properties.size() - switches_to_draw(subject).size();
    return idle == 0 ? ""
                     : number_of(idle, "property") + (idle == 1 ? " drives" : " drive") + " nothing and " +
                           (idle == 1 ? "has" : "have") + " no page";
}

std::string fault_of(const Rig& rig, const Facts& facts, const DrawingOptions& options) {
    if (options.around && *options.around >= rig.bones.size())
        return "there is no bone " + std::to_string(*options.around) + " to draw around, the rig has " +
               std::to_string(rig.bones.size());
    if (options.cycle && *options.cycle >= facts.cycles.size())
        return "there is no cycle " + std::to_string(*options.cycle + 1) + ", the rig has " + std::to_string(facts.cycles.size());
    if (options.property && *options.property >= rig.properties.size())
        return "there is no property " + std::to_string(*options.property) + ", the rig has " +
               std::to_string(rig.properties.size());
    const std::vector<std::string> groups = group_names(rig);
    if (options.group && std::find(groups.begin(), groups.end(), *options.group) == groups.end())
        return "there is no group \"" + *options.group + "\"";
    return {};
}

/// Adds the pages of all jobs, or says why there are none.
void draw_jobs(const Subject& subject, const std::vector<Job>& jobs, Drawing& drawing) {
    const DrawingOptions& options = subject.options;
    // Groups alone are laid out by Graphviz: all else would load it for nothing.
    const auto is_laid_out = [](const Job& job) { return job.view->view == View::group; };
    if (!subject.in_rows && std::any_of(jobs.begin(), jobs.end(), is_laid_out)) prepare_layouts();
    std::vector<BoundedResult> results = run(subject, jobs);
    for (std::size_t j = 0; j < jobs.size(); ++j) {
        if (!results[j].bytes) {
            drawing.ran_out_of_memory |= results[j].out_of_memory;
            say(drawing.notice,
                name_of(subject, jobs[j]) + " " + why_not(results[j], options.time_limit) + ", so its boxes stand in rows");
            results[j] = run_plainly(subject, jobs[j]);
            drawing.ran_out_of_memory |= results[j].out_of_memory;
        }
        if (results[j].bytes && add_pages(*results[j].bytes, jobs[j].view->view, drawing)) continue;
        drawing.error = name_of(subject, jobs[j]) + " " + why_not(results[j], options.time_limit);
        drawing.pages.clear();
        return;
    }
}

}  // namespace

Drawing draw_views(const Rig& rig, const Dependencies& dependencies, const Facts& facts, std::span<const View> views,
                   const DrawingOptions& options) {
    Drawing drawing;
    drawing.error = fault_of(rig, facts, options);
    if (!drawing.error.empty()) return drawing;
    const Subject subject(rig, dependencies, facts, options);
    std::vector<Job> jobs;
    for (View view : views) {
        const ViewEntry& entry = all_views()[static_cast<std::size_t>(view)];
        for (std::uint32_t item : entry.find_items(subject)) jobs.push_back({&entry, item});
    }
    say(drawing.notice, left_out_of(subject, views));
    draw_jobs(subject, jobs, drawing);
    return drawing;
}

Drawing draw_change(const Revision& before, const Revision& after, const Comparison& comparison, const DrawingOptions& options) {
    DrawingOptions own = options;
    own.embedded = false;
    const Subject was(before.rig, before.dependencies, before.facts, own);
    Subject subject(after.rig, after.dependencies, after.facts, own);
    const ChangeSubject change{was, comparison};
    subject.change = &change;
    std::vector<Job> jobs;
    for (const std::uint32_t item : changes_to_draw(subject)) jobs.push_back({&change_view(), item});
    Drawing drawing;
    draw_jobs(subject, jobs, drawing);
    return drawing;
}

Drawing draw(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const DrawingOptions& options) {
    return draw_views(rig, dependencies, facts, {&options.view, 1}, options);
}

std::string drawing_style() { return style_sheet(); }

std::string drawing_definitions() {
    return "<svg class=\"lg\" width=\"0\" height=\"0\" aria-hidden=\"true\" focusable=\"false\">" + style_definitions() +
           "</svg>";
}

}  // namespace ligament
