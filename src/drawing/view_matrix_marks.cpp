// How is the table of needs marked? One shape a kind, blocks for groups, and loud what lies above the diagonal.
#include <algorithm>
#include <array>
#include <set>

#include "lists.hpp"
#include "shapes.hpp"
#include "text.hpp"
#include "view_matrix.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr std::size_t most_with_hover = 400;
constexpr double least_named_block = 4, least_loud = 5, name_size_here = 9.5;

Point centre_of(const Matrix& matrix, const Grid& grid, const BoneNeed& need) {
    return {grid.origin.x + grid.at(matrix.order.place[need.needed]) + grid.cell / 2,
            grid.origin.y + grid.at(matrix.order.place[need.bone]) + grid.cell / 2};
}

std::string name_in(const Matrix& matrix, BoneId bone) { return isolated(drawable(matrix.subject.rig.bones[bone].name)); }

std::string square(Point at, double size) { return rect_path({at.x - size / 2, at.y - size / 2, size, size}); }

std::string hover_of_cell(const Matrix& matrix, const Grid& grid, std::size_t cell) {
    const std::size_t first = cell * grid.per_cell, last = std::min(first + grid.per_cell, matrix.order.bones.size()) - 1;
    return "bones " + std::to_string(first + 1) + " to " + std::to_string(last + 1) + ": " +
           name_in(matrix, matrix.order.bones[first]) + " to " + name_in(matrix, matrix.order.bones[last]);
}

/// The bones themselves, so that one can ask which is which.
void add_diagonal(Scene& scene, const Matrix& matrix, const Grid& grid) {
    for (std::size_t c = 0; c < grid.cells; ++c) {
        const double at = grid.cell * (static_cast<double>(c) + 0.5), size = grid.cell * 0.8;
        const Point middle{grid.origin.x + at, grid.origin.y + at};
        Mark mark{square(middle, size), {middle.x - size / 2, middle.y - size / 2, size, size}, Mark::Look::quiet, {}, {}};
        if (grid.per_cell == 1) {
            const BoneId bone = matrix.order.bones[c];
            mark.hover = std::to_string(c + 1) + ": " + hover_of(matrix.subject, bone);
            mark.about = {About::Kind::bone, bone};
        } else {
            mark.hover = hover_of_cell(matrix, grid, c);
        }
        scene.marks.push_back(std::move(mark));
    }
}

/// Quiet ones: below the diagonal, a mark a kind.
void add_quiet_marks(Scene& scene, const Matrix& matrix, const Grid& grid) {
    const bool shapes = grid.cell >= least_shape_cell && grid.per_cell == 1;
    std::array<std::string, mark_order.size()> paths;
    std::set<std::pair<std::size_t, std::size_t>> marked;
    for (const BoneNeed& need : matrix.needs.all) {
        const std::size_t row = matrix.order.place[need.bone] / grid.per_cell,
                          column = matrix.order.place[need.needed] / grid.per_cell;
        if (row <= column) continue;
        if (grid.per_cell > 1 && !marked.emplace(row, column).second) continue;
        const Point at = centre_of(matrix, grid, need);
        if (shapes)
            paths[static_cast<std::size_t>(need.kind)] += mark_path(need.kind, at, grid.cell);
        else
            paths[0] += square(at, grid.cell * 0.86);
    }
    const Rect all{grid.origin.x, grid.origin.y, grid.side(), grid.side()};
    for (std::string& path : paths)
        if (!path.empty()) scene.marks.push_back({std::move(path), all, Mark::Look::ink, {}, {}});
}

std::string hover_of_loud(const Matrix& matrix, const LoudNeed& loud) {
    return name_in(matrix, loud.need.bone) + " needs " + name_in(matrix, loud.need.needed) + "\n" +
           std::string(name_of(loud.need.kind)) + (loud.cycle ? "\nin cycle " + std::to_string(loud.cycle) : "");
}

void add_loud_marks(Scene& scene, const Matrix& matrix, const Grid& grid) {
    const bool shapes = grid.cell >= least_shape_cell && grid.per_cell == 1;
    const double size = std::max(grid.cell, least_loud);
    std::vector<std::string> of_cycle(matrix.subject.facts.cycles.size() + 1);
    std::vector<std::size_t> count(of_cycle.size());
    std::set<std::pair<std::size_t, std::size_t>> marked;
    for (std::size_t i = 0; i < matrix.loud.size(); ++i) {
        const LoudNeed& loud = matrix.loud[i];
        const Point at = centre_of(matrix, grid, loud.need);
        const std::string path = shapes ? mark_path(loud.need.kind, at, size) : square(at, size);
        if (matrix.loud.size() <= most_with_hover) {
            scene.marks.push_back(
                {path, {at.x - size / 2, at.y - size / 2, size, size}, Mark::Look::alarm, hover_of_loud(matrix, loud), {}});
            continue;
        }
        ++count[loud.cycle];
        const std::pair cell{matrix.order.place[loud.need.bone] / grid.per_cell,
                             matrix.order.place[loud.need.needed] / grid.per_cell};
        if (grid.per_cell == 1 || marked.insert(cell).second) of_cycle[loud.cycle] += path;
    }
    const Rect all{grid.origin.x, grid.origin.y, grid.side(), grid.side()};
    for (std::size_t c = 0; c < of_cycle.size(); ++c)
        if (!of_cycle[c].empty())
            scene.marks.push_back({std::move(of_cycle[c]),
                                   all,
                                   Mark::Look::alarm,
                                   "cycle " + std::to_string(c) + ": " + number_of(count[c], "need") + " above the diagonal",
                                   {}});
}

std::string hover_of_run(const Matrix& matrix, const GroupRun& run) {
    const std::string& name = matrix.subject.groups[run.group];
    return (name.empty() ? "bones in no group" : "group " + isolated(drawable(name))) + "\n" + number_of(run.count, "bone") +
           ", " + std::to_string(run.first + 1) + " to " + std::to_string(run.first + run.count) + " of the order";
}

/// A cycle's bones stand together; from the first one's place on.
struct CycleRun {
    std::uint32_t cycle = 0;
    std::size_t first = 0, count = 0;
};

std::vector<CycleRun> cycle_runs(const Matrix& matrix) {
    std::vector<CycleRun> runs;
    const std::vector<Cycle>& cycles = matrix.subject.facts.cycles;
    for (std::uint32_t c = 0; c < cycles.size(); ++c)
        if (!cycles[c].bones.empty()) runs.push_back({c, matrix.order.place[cycles[c].bones.front()], cycles[c].bones.size()});
    return runs;
}

/// Words that stand right of a block.
struct BlockName {
    Rect block;
    Label label;
};

std::vector<BlockName> names_of_blocks(const Matrix& matrix, const Grid& grid) {
    std::vector<BlockName> names;
    for (const CycleRun& run : cycle_runs(matrix)) {
        BlockName name{grid.block(run.first, run.count), {}};
        name.label.words = "cycle " + std::to_string(run.cycle + 1);
        name.label.tone = Tone::alarm;
        name.label.bold = true;
        name.label.hover = name.label.words + ": " + number_of(run.count, "bone");
        name.label.about = {About::Kind::cycle, run.cycle};
        names.push_back(std::move(name));
    }
    const std::size_t cycles = names.size();
    for (const GroupRun& run : matrix.order.runs) {
        if (matrix.subject.groups[run.group].empty()) continue;
        BlockName name{grid.block(run.first, run.count), {}};
        name.label.words = cut_in_middle(drawable(matrix.subject.groups[run.group]), name_size_here, 110);
        name.label.hover = hover_of_run(matrix, run);
        name.label.about = {About::Kind::group, run.group};
        names.push_back(std::move(name));
    }
    std::stable_sort(names.begin() + static_cast<std::ptrdiff_t>(cycles), names.end(),
                     [](const BlockName& a, const BlockName& b) { return a.block.height > b.block.height; });
    return names;
}

}  // namespace

Rect Grid::block(std::size_t first, std::size_t count) const {
    const double from = at(first), to = at(first + count - 1) + cell;
    return {origin.x + from, origin.y + from, to - from, to - from};
}

std::string mark_path(EdgeKind kind, Point at, double size) {
    const double half = size * 0.38;
    switch (kind) {
        case EdgeKind::constraint:
            return square(at, 2 * half);
        case EdgeKind::solver:
            return polygon_path({{at.x - half, at.y - half}, {at.x + half, at.y}, {at.x - half, at.y + half}});
        case EdgeKind::driver:
            return polygon_path(
                {{at.x, at.y - half * 1.2}, {at.x + half * 1.2, at.y}, {at.x, at.y + half * 1.2}, {at.x - half * 1.2, at.y}});
        case EdgeKind::curve:
            return disc_path(at, half);
        case EdgeKind::parent:
            return rect_path({at.x - half, at.y - half * 0.35, 2 * half, half * 0.7});
        case EdgeKind::order:
            return rect_path({at.x - half * 0.35, at.y - half, half * 0.7, 2 * half});
    }
    return {};
}

void add_blocks(Scene& scene, const Matrix& matrix, const Grid& grid) {
    for (const GroupRun& run : matrix.order.runs)
        scene.backdrops.push_back({grid.block(run.first, run.count),
                                   Backdrop::Look::frame,
                                   0,
                                   hover_of_run(matrix, run),
                                   {About::Kind::group, run.group}});
}

void add_marks(Scene& scene, const Matrix& matrix, const Grid& grid) {
    const Rect all{grid.origin.x, grid.origin.y, grid.side(), grid.side()};
    scene.marks.push_back({rect_path(all), all, Mark::Look::line, {}, {}});
    add_diagonal(scene, matrix, grid);
    add_quiet_marks(scene, matrix, grid);
    for (const CycleRun& run : cycle_runs(matrix)) {
        const Rect block = grid.block(run.first, run.count);
        scene.marks.push_back({rect_path(block),
                               block,
                               Mark::Look::alarm_line,
                               "cycle " + std::to_string(run.cycle + 1) + ": " + number_of(run.count, "bone"),
                               {About::Kind::cycle, run.cycle}});
    }
    add_loud_marks(scene, matrix, grid);
}

std::size_t add_block_names(Scene& scene, const Matrix& matrix, const Grid& grid, double right) {
    std::vector<Rect> taken;
    const double loud_size = std::max(grid.cell, least_loud) + 2;
    if (matrix.loud.size() <= most_with_hover)
        for (const LoudNeed& loud : matrix.loud) {
            const Point at = centre_of(matrix, grid, loud.need);
            taken.push_back({at.x - loud_size / 2, at.y - loud_size / 2, loud_size, loud_size});
        }
    std::size_t left_out = 0;
    for (BlockName& name : names_of_blocks(matrix, grid)) {
        if (name.label.about.kind == About::Kind::group && name.block.height < least_named_block) {
            ++left_out;
            continue;
        }
        Label& label = name.label;
        label.size = name_size_here;
        label.plate = true;
        bool placed = false;
        for (double aside : {8.0, 60.0, 112.0, 164.0}) {
            for (double down : {0.0, -8.0, 8.0}) {
                label.at = {name.block.right() + aside, name.block.centre().y + 3.3 + down};
                const Rect covers = label.extent();
                const bool fits =
                    covers.right() <= right && covers.y >= grid.origin.y && covers.bottom() <= grid.origin.y + grid.side();
                if (!fits || std::any_of(taken.begin(), taken.end(), [&](const Rect& r) { return r.overlaps(covers); })) continue;
                taken.push_back({covers.x - 3, covers.y - 1, covers.width + 6, covers.height + 2});
                scene.add(label);
                placed = true;
                break;
            }
            if (placed || name.label.about.kind == About::Kind::group) break;  // a name far off would name another block
        }
        left_out += !placed;
    }
    return left_out;
}

}  // namespace ligament
