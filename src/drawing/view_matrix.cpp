// What needs what, as a table of marks?
#include "view_matrix.hpp"

#include <algorithm>
#include <cmath>

#include "lists.hpp"
#include "shapes.hpp"
#include "style.hpp"
#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr double list_width = 270, gap = 24, names_band = 96, top = 34, widest_name = 150, tick_band = 34;
constexpr const char* table_title = "a row needs what is marked in it; columns in the same order";
constexpr double largest_cell = 22, least_cell = 2;
constexpr std::size_t loud_said = 30, blocks_said = 60;

/// Whether rows are high enough for names.
bool has_names(const Grid& grid) { return grid.per_cell == 1 && grid.cell >= least_named_row; }

std::string row_name(const Matrix& matrix, std::size_t place) {
    const std::string name =
        isolated(cut_in_middle(drawable(matrix.subject.rig.bones[matrix.order.bones[place]].name), 9.5, widest_name));
    return name + " " + std::to_string(place + 1);
}

/// What the names of rows take before them.
double width_of_names(const Matrix& matrix) {
    double width = tick_band;
    for (std::size_t i = 0; i < matrix.order.bones.size(); ++i) width = std::max(width, width_of(row_name(matrix, i), 9.5) + 6);
    return width;
}

Grid grid_of(const Matrix& matrix, Room room) {
    const std::size_t bones = matrix.order.bones.size();
    auto fit = [&](double before) {
        const double side = std::min(room.height - top, room.width - list_width - gap - names_band - before);
        Grid grid;
        grid.per_cell = static_cast<std::size_t>(std::max(1.0, std::ceil(static_cast<double>(bones) * least_cell / side)));
        grid.cells = (bones + grid.per_cell - 1) / grid.per_cell;
        grid.cell = std::min(largest_cell, side / static_cast<double>(grid.cells));
        grid.origin = {before, top};
        return grid;
    };
    const Grid bare = fit(tick_band);
    if (!has_names(bare)) return bare;
    const Grid named = fit(width_of_names(matrix));
    if (!has_names(named)) return bare;
    Grid grid = named;
    grid.named = true;
    return grid;
}

/// 1, 2 or 5 times a power of ten.
std::size_t step_of_ticks(const Grid& grid, double least) {
    for (std::size_t power = 1;; power *= 10)
        for (std::size_t step : {power, 2 * power, 5 * power})
            if (grid.cell * static_cast<double>(step) / static_cast<double>(grid.per_cell) >= least) return step;
}

void add_tick(Scene& scene, Point at, Align align, std::size_t number) {
    Label label;
    label.at = at;
    label.words = std::to_string(number);
    label.size = 9.5;
    label.align = align;
    label.tone = Tone::quiet;
    scene.add(std::move(label));
}

void add_ticks(Scene& scene, const Matrix& matrix, const Grid& grid) {
    const std::size_t bones = matrix.order.bones.size(), step = step_of_ticks(grid, 40), row_step = step_of_ticks(grid, 16);
    for (std::size_t n = step; n <= bones; n += step)
        add_tick(scene, {grid.origin.x + grid.at(n - 1) + grid.cell / 2, grid.origin.y - 5}, Align::middle, n);
    if (grid.named) {
        for (std::size_t i = 0; i < bones; ++i) {
            Label label;
            label.at = {grid.origin.x - 5, grid.origin.y + grid.cell * (static_cast<double>(i) + 0.5) + 3.3};
            label.words = row_name(matrix, i);
            label.size = 9.5;
            label.align = Align::end;
            label.hover = hover_of(matrix.subject, matrix.order.bones[i]);
            label.about = {About::Kind::bone, matrix.order.bones[i]};
            scene.add(std::move(label));
        }
    } else {
        for (std::size_t n = row_step; n <= bones; n += row_step)
            add_tick(scene, {grid.origin.x - 5, grid.origin.y + grid.at(n - 1) + grid.cell / 2 + 3.3}, Align::end, n);
    }
    Label title;
    title.at = {0, 11};
    title.words = table_title;
    title.size = 9.5;
    title.tone = Tone::quiet;
    scene.add(std::move(title));
}

std::string short_name(const std::string& name) { return isolated(cut_in_middle(drawable(name), 9.5, 120)); }

void say_loud(const Matrix& matrix, std::vector<Said>& lines) {
    if (matrix.loud.empty()) {
        lines.push_back(heading("nothing above the diagonal"));
        lines.push_back(said("no bone needs one that comes after it"));
        return;
    }
    lines.push_back(heading(number_of(matrix.loud.size(), "need") + " above the diagonal"));
    const Rig& rig = matrix.subject.rig;
    const std::size_t shown = std::min(matrix.loud.size(), loud_said);
    for (std::size_t i = 0; i < shown; ++i) {
        const LoudNeed& loud = matrix.loud[i];
        Said line =
            said(std::to_string(matrix.order.place[loud.need.bone] + 1) + " " + short_name(rig.bones[loud.need.bone].name) +
                 " needs " + std::to_string(matrix.order.place[loud.need.needed] + 1) + " " +
                 short_name(rig.bones[loud.need.needed].name) + ": " + std::string(name_of(loud.need.kind)) +
                 (loud.cycle ? ", cycle " + std::to_string(loud.cycle) : ""));
        line.before = 2;
        line.about = {About::Kind::bone, loud.need.bone};
        lines.push_back(std::move(line));
    }
    if (shown < matrix.loud.size())
        lines.push_back(
            said("showing " + std::to_string(shown) + " of " + std::to_string(matrix.loud.size()) + " needs", 0, Tone::quiet));
}

void say_blocks(const Matrix& matrix, std::vector<Said>& lines) {
    const std::vector<GroupRun>& runs = matrix.order.runs;
    lines.push_back(heading(number_of(runs.size(), "block") + ", top to bottom"));
    const std::size_t shown = std::min(runs.size(), blocks_said);
    for (std::size_t i = 0; i < shown; ++i) {
        const std::string& group = matrix.subject.groups[runs[i].group];
        const std::string places = std::to_string(runs[i].first + 1) +
                                   (runs[i].count > 1 ? "\u2013" + std::to_string(runs[i].first + runs[i].count) : "");
        Said line =
            said(places + " " + (group.empty() ? "in no group" : short_name(group)) + ", " + number_of(runs[i].count, "bone"));
        line.about = {About::Kind::group, runs[i].group};
        lines.push_back(std::move(line));
    }
    if (shown < runs.size())
        lines.push_back(
            said("showing " + std::to_string(shown) + " of " + std::to_string(runs.size()) + " blocks", 0, Tone::quiet));
}

std::vector<std::string> subtitle_of(const Matrix& matrix, const Grid& grid, std::size_t unnamed) {
    std::vector<std::string> lines;
    lines.push_back(number_of(matrix.order.bones.size(), "bone") +
                    " in an order of evaluation that stays within a group as long as it can: " +
                    number_of(matrix.order.runs.size(), "block") +
                    (matrix.subject.groups.size() > 1 ? " of " + number_of(matrix.subject.groups.size(), "group") : ""));
    std::string needs = number_of(matrix.needs.all.size(), "need") +
                        " between bones, followed through drivers, properties, objects and solvers; above the diagonal " +
                        std::to_string(matrix.loud.size());
    std::size_t in_cycles = 0;
    for (const LoudNeed& loud : matrix.loud) in_cycles += loud.cycle != 0;
    if (in_cycles)
        needs += in_cycles == matrix.loud.size() ? ", in cycles" : ", of which " + std::to_string(in_cycles) + " in cycles";
    const std::vector<Cycle>& cycles = matrix.subject.facts.cycles;
    const auto boneless = static_cast<std::size_t>(
        std::count_if(cycles.begin(), cycles.end(), [](const Cycle& cycle) { return cycle.bones.empty(); }));
    if (boneless) needs += "; not here: " + number_of(boneless, "cycle") + " between properties alone";
    lines.push_back(needs);
    std::string folded;
    auto say = [&](const std::string& words) { folded += (folded.empty() ? "" : "; ") + words; };
    if (grid.per_cell > 1) say("a cell stands for " + std::to_string(grid.per_cell) + " bones");
    if (matrix.needs.inert)
        say("not marked: " + number_of(matrix.needs.inert, "dependency") + " that " +
            (matrix.needs.inert == 1 ? "counts" : "count") + " for nothing (disabled or of weight 0)");
    if (!matrix.needs.is_complete) say("properties, objects and solvers were not followed to their end: too many ways");
    if (unnamed) say(number_of(unnamed, "block") + " without room for a name");
    if (!folded.empty()) lines.push_back(folded);
    return lines;
}

LegendEntry sample(const std::string& path, Mark::Look look, std::string text) {
    LegendEntry entry{{}, std::move(text)};
    entry.sample.width = 20, entry.sample.height = 18;
    entry.sample.marks.push_back({path, {0, 0, 20, 18}, look, {}, {}});
    return entry;
}

void add_legend(Sheet& sheet, const Matrix& matrix, const Grid& grid) {
    const Rect box{5, 4, 10, 10};
    if (grid.cell >= least_shape_cell && grid.per_cell == 1) {
        for (EdgeKind kind : mark_order)
            if (std::any_of(matrix.needs.all.begin(), matrix.needs.all.end(),
                            [&](const BoneNeed& need) { return need.kind == kind; }))
                sheet.legend.push_back(sample(mark_path(kind, {10, 9}, 14), Mark::Look::ink,
                                              std::string(line_styles[static_cast<std::size_t>(kind)].name)));
        sheet.legend.push_back({{}, "where several hold, the first of these"});
    } else {
        sheet.legend.push_back(sample(rect_path(box), Mark::Look::ink, "needs"));
    }
    sheet.legend.push_back(sample(rect_path(box), Mark::Look::quiet, "the diagonal: the bones themselves"));
    if (!matrix.loud.empty())
        sheet.legend.push_back(sample(rect_path(box), Mark::Look::alarm, "above the diagonal: closes a cycle"));
    if (std::any_of(matrix.subject.facts.cycles.begin(), matrix.subject.facts.cycles.end(),
                    [](const Cycle& c) { return !c.bones.empty(); }))
        sheet.legend.push_back(sample(rect_path(box), Mark::Look::alarm_line, "the bones of a cycle"));
    LegendEntry block{{}, "block: bones of one group that follow each other"};
    block.sample.width = 20, block.sample.height = 18;
    block.sample.backdrops.push_back({{3, 2, 14, 14}, Backdrop::Look::frame, 0, {}, {}});
    sheet.legend.push_back(std::move(block));
}

}  // namespace

std::vector<Sheet> plan_of_matrix(const Subject& subject, std::uint32_t, Room room) {
    const Matrix matrix(subject);
    const Grid grid = grid_of(matrix, room);
    std::vector<Sheet> sheets(1);
    Scene& scene = sheets.front().scene;
    add_blocks(scene, matrix, grid);
    add_marks(scene, matrix, grid);
    add_ticks(scene, matrix, grid);
    const double right = grid.origin.x + grid.side(), fitting = std::max(right + names_band, width_of(table_title, 9.5)),
                 picture = std::min(fitting, room.width - list_width - gap);
    const std::size_t unnamed = add_block_names(scene, matrix, grid, picture);
    std::vector<Said> words;
    say_loud(matrix, words);
    say_blocks(matrix, words);
    const double width = std::min(room.width - picture - gap, 400.0);
    Filled filled = fill_column(scene, {picture + gap, 0, width, room.height}, words, 0);
    scene.width = picture + gap + width;
    scene.height = std::max(grid.origin.y + grid.side(), filled.bottom);
    while (filled.next < words.size()) {
        Scene& more = sheets.emplace_back().scene;
        filled = fill_columns(more, {0, 0, room.width, room.height}, list_width, words, filled.next);
        more.width = room.width, more.height = filled.bottom;
    }
    number_sheets(sheets, subject, "matrix", "who needs whom in rig " + isolated(drawable(subject.rig.name)));
    for (Sheet& sheet : sheets) sheet.subtitle = subtitle_of(matrix, grid, unnamed);
    add_legend(sheets.front(), matrix, grid);
    return sheets;
}

}  // namespace ligament
