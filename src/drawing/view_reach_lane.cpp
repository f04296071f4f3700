// Which deform bones are not attached, and where and when?
#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "shapes.hpp"
#include "text.hpp"
#include "view_reach_page.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr double lane_left = 20, lane_right = 8, title_height = 20;
constexpr std::size_t most_loose_named = 1'000;
constexpr double cell_width = 200, cell_height = 88;

/// A deform bone that is not attached, or not in some state.
struct Loose {
    BoneId bone = none;
    Verdict verdict = Verdict::attached;  ///< the worst one
    std::string when;                     ///< the states in which it is lost; empty where it is so from the start
    std::string where;                    ///< group and place in the file
};

std::string when_text(const Subject& subject, std::size_t place) {
    const SwitchFacts& facts = subject.facts.switches;
    std::string text;
    std::size_t states = 0;
    for (const auto* list : {&facts.worse, &facts.worse_yet}) {
        if (place >= list->size()) continue;
        for (const Worse& worse : (*list)[place])
            if (++states <= 2)
                text += (states > 1 ? ", " : "at ") + drawable(name_of(subject.rig, facts.switches, worse.settings));
    }
    return states > 2 ? text + " and " + std::to_string(states - 2) + " more" : text;
}

Verdict worst_verdict(const SwitchFacts& facts, std::size_t place, Verdict verdict) {
    for (const auto* list : {&facts.worse, &facts.worse_yet})
        if (place < list->size())
            for (const Worse& worse : (*list)[place]) verdict = std::max(verdict, worse.verdict);
    return verdict;
}

std::string where_text(const Subject& subject, BoneId bone) {
    const Bone& of = subject.rig.bones[bone];
    constexpr double widest_group = 200;
    std::string text =
        of.group.empty() ? "no group" : "in " + isolated(cut_in_middle(drawable(of.group), row_size, widest_group));
    return text + at_place(of.place);
}

std::vector<Loose> find_loose(const Subject& subject) {
    std::vector<Loose> loose;
    const std::vector<Attachment>& deform = subject.facts.attachment.deform;
    for (std::size_t i = 0; i < deform.size(); ++i) {
        const Verdict worst = worst_verdict(subject.facts.switches, i, deform[i].verdict);
        if (worst != Verdict::orphaned && worst != Verdict::root_only) continue;
        Loose entry{deform[i].bone, worst, {}, where_text(subject, deform[i].bone)};
        if (worst != deform[i].verdict) entry.when = when_text(subject, i);
        loose.push_back(std::move(entry));
    }
    return loose;
}

Label title_label(Point at, std::string words) {
    Label label = label_at(at.x, at.y, std::move(words), Tone::alarm, true);
    label.size = 11;
    return label;
}

void add_box(ReachPages& pages, const Loose& entry, Point at) {
    Node node;
    node.box = box_of(pages.subject, entry.bone, cell_width - 24);
    std::erase_if(node.box.badges, [](const Badge& badge) { return badge.kind != Badge::Kind::cycle; });
    node.box.badges.push_back({Badge::Kind::unattached, std::string(name_of(entry.verdict))});
    if (!entry.when.empty()) node.box.hover += "\n" + std::string(name_of(entry.verdict)) + " " + entry.when;
    const Size size = size_of(node.box);
    node.rect = {at.x, at.y, size.width, size.height};
    node.about = {About::Kind::bone, entry.bone};
    Scene& scene = pages.scene();
    scene.add(std::move(node));
    Label quiet;
    quiet.size = row_size, quiet.tone = Tone::quiet;
    std::vector<std::string> lines{cut_in_middle(entry.where, row_size, cell_width - 12)};
    if (!entry.when.empty()) lines.push_back(cut_in_middle(entry.when, row_size, cell_width - 12));
    add_lines(scene, lines, {at.x, at.y + size.height + 2}, quiet);
}

/// Few enough to be drawn large.
void add_boxes(ReachPages& pages, const std::vector<Loose>& loose, const std::string& title) {
    const std::size_t a_line = static_cast<std::size_t>((pages.room.width - lane_left - lane_right) / cell_width);
    const std::size_t lines = (loose.size() + a_line - 1) / a_line;
    const double width =
        lane_left + static_cast<double>(std::min(a_line, std::max<std::size_t>(loose.size(), 3))) * cell_width + lane_right;
    const Rect rect{1, pages.y + 1, width, title_height + static_cast<double>(lines) * cell_height + 4};
    pages.scene().backdrops.push_back({rect, Backdrop::Look::alarm_lane, 6, {}, {}});
    pages.scene().add(title_label({lane_left, pages.y + 5}, title));
    for (std::size_t i = 0; i < loose.size(); ++i)
        add_box(pages, loose[i],
                {lane_left + static_cast<double>(i % a_line) * cell_width,
                 pages.y + title_height + 6 + static_cast<double>(i / a_line) * cell_height});
    pages.y += rect.height + 8;
}

std::vector<Row> rows_of(const Subject& subject, const std::vector<Loose>& loose) {
    std::vector<Row> rows;
    for (const Loose& entry : loose) {
        Row row = plain_row_of(subject, entry.bone);
        row.tone = Tone::alarm, row.hatched = true;
        row.note = " " + std::string(name_of(entry.verdict)) + (entry.when.empty() ? "" : " " + entry.when) + ", " + entry.where;
        rows.push_back(std::move(row));
    }
    return rows;
}

/// One row a group and verdict, where bones are too many to be named.
std::vector<Row> counted_rows(const Subject& subject, const std::vector<Loose>& loose) {
    std::map<std::pair<std::uint32_t, Verdict>, std::size_t> count_of;
    for (const Loose& entry : loose) ++count_of[{subject.group_of[entry.bone], entry.verdict}];
    std::vector<Row> rows;
    for (const auto& [key, count] : count_of) {
        const std::string& name = subject.groups[key.first];
        Row row;
        row.words = name.empty() ? "no group" : drawable(name);
        row.note = ": " + std::to_string(count) + " " + std::string(name_of(key.second));
        row.tone = Tone::alarm;
        row.sign = Row::Sign::deform, row.hatched = true;
        row.hover = isolated(row.words) + row.note;
        row.about = {About::Kind::group, key.first};
        rows.push_back(std::move(row));
    }
    return rows;
}

/// One row a bone, on as many sheets as it takes.
void add_compact(ReachPages& pages, const std::vector<Row>& rows, const std::string& title) {
    const double inner = pages.room.width - lane_left - lane_right;
    const RowGrid whole = fit_grid(rows, inner, 480);
    for (std::size_t from = 0; from < rows.size();) {
        if (pages.left() < title_height + 3 * row_height) pages.start_sheet();
        const double lines = std::max(1.0, std::floor((pages.left() - title_height - 14) / row_height));
        const std::size_t to = std::min(rows.size(), from + static_cast<std::size_t>(lines) * whole.columns);
        RowGrid grid = whole;
        grid.rows = (to - from + whole.columns - 1) / whole.columns;
        const Rect rect{1, pages.y + 1, pages.room.width - 2, title_height + grid.height() + 6};
        pages.scene().backdrops.push_back({rect, Backdrop::Look::alarm_lane, 6, {}, {}});
        pages.scene().add(title_label({lane_left, pages.y + 5}, title + (from ? " (continued)" : "")));
        pages.add_rows({rows.begin() + static_cast<std::ptrdiff_t>(from), rows.begin() + static_cast<std::ptrdiff_t>(to)}, grid,
                       {lane_left, pages.y + title_height});
        pages.y += rect.height + 8;
        from = to;
    }
}

/// Those that only ride on their deform parent, by name as far as three lines go.
void add_carried(ReachPages& pages) {
    std::vector<Row> rows;
    for (const Attachment& entry : pages.subject.facts.attachment.deform)
        if (entry.verdict == Verdict::carried) rows.push_back(plain_row_of(pages.subject, entry.bone));
    if (rows.empty()) return;
    const std::size_t all = rows.size();
    const double inner = pages.room.width - lane_left - lane_right;
    RowGrid grid = fit_grid(rows, inner);
    std::string title = "carried, moved only because their deform parent moves: " + number_of(all, "deform bone");
    if (grid.rows > 3) {
        rows.resize(3 * grid.columns);
        grid.rows = 3;
        title += ", " + std::to_string(rows.size()) + " of them here and all in their limb's band";
    }
    if (pages.left() < 20 + grid.height()) pages.start_sheet();
    pages.scene().backdrops.push_back(
        {{1, pages.y + 1, pages.room.width - 2, 20 + grid.height()}, Backdrop::Look::lane, 6, {}, {}});
    pages.scene().add(label_at(lane_left, pages.y + 4, title, Tone::quiet, true));
    pages.add_rows(rows, grid, {lane_left, pages.y + 18});
    pages.y += 28 + grid.height();
}

}  // namespace

void add_loose_lane(ReachPages& pages) {
    const std::vector<Loose> loose = find_loose(pages.subject);
    const bool are_all_so = std::all_of(loose.begin(), loose.end(), [](const Loose& entry) { return entry.when.empty(); });
    const std::string title = "not attached: " + number_of(loose.size(), "deform bone") +
                              (are_all_so ? "" : ", in the default state or at a stop that is named");
    const auto a_line = static_cast<std::size_t>((pages.room.width - lane_left - lane_right) / cell_width);
    if (!loose.empty() && loose.size() <= 2 * a_line)
        add_boxes(pages, loose, title);
    else if (loose.size() > most_loose_named)
        add_compact(pages, counted_rows(pages.subject, loose),
                    title + ", counted by group since they are more than " + std::to_string(most_loose_named));
    else if (!loose.empty())
        add_compact(pages, rows_of(pages.subject, loose), title);
    add_carried(pages);
    pages.top = pages.y;
}

}  // namespace ligament
