// What is circular, and where is it cut best?
#include "view_cycle.hpp"

#include <algorithm>
#include <numeric>

#include "lists.hpp"
#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr double words_width = 420, narrowest = 330, gap = 30;

std::vector<bool> put_to_edges(const CycleStory& story, const Cut& cut, bool finer, std::vector<std::vector<CutSign>>& signs) {
    const Dependencies& dependencies = story.subject.dependencies;
    std::vector<bool> on_loop(cut.makers.size());
    for (std::size_t m = 0; m < cut.makers.size(); ++m) {
        const MakerId maker = cut.makers[m].edge.maker;
        for (std::size_t e = 0; e < signs.size(); ++e) {
            const FoldedEdge& edge = story.cycle.witness[e];
            const bool taken = is_taken_by(dependencies, edge.maker, maker) ||
                               std::any_of(edge.through.begin(), edge.through.end(),
                                           [&](MakerId through) { return is_taken_by(dependencies, through, maker); });
            if (!taken) continue;
            signs[e].push_back({m + 1, cut.makers[m].cost, finer});
            on_loop[m] = true;
        }
    }
    return on_loop;
}

std::string title_of(const CycleStory& story) {
    return "cycle " + std::to_string(story.index + 1) + " of " + std::to_string(story.subject.facts.cycles.size()) + ", rig " +
           isolated(drawable(story.subject.rig.name));
}

std::vector<std::string> subtitle_of(const CycleStory& story) {
    const Cycle& cycle = story.cycle;
    std::string counts = "a loop of " + number_of(cycle.witness.size(), "edge") + " at " + std::string(name_of(cycle.grain)) +
                         " grain, in a component of ";
    if (!cycle.bones.empty()) counts += number_of(cycle.bones.size(), "bone");
    if (!cycle.properties.empty())
        counts += (cycle.bones.empty() ? "" : " and ") + number_of(cycle.properties.size(), "property");
    counts += cycle.bones.size() + cycle.properties.size() > 1 ? " that need each other" : " that needs itself";
    std::vector<std::string> lines{counts};
    if (cycle.grain == Grain::bone)
        lines.push_back("a loop for hosts that evaluate bone by bone; none where the steps or channels of a bone are told apart");
    if (story.cut)
        lines.push_back("cut at " + number_of(story.cut->makers.size(), "place") + ", which costs " +
                        std::to_string(story.cut->cost) + ", no loop is left");
    return lines;
}

/// The witness in parts of equal length, one a sheet; of a very long one the first and the last.
std::vector<TrackPart> parts_of(const CycleStory& story, Room room) {
    constexpr std::size_t most_sheets = 6;
    const std::size_t all = story.cycle.witness.size(), most = track_capacity(story, room);
    const std::size_t wanted = (all + most - 1) / most, sheets = std::min(wanted, most_sheets);
    std::vector<TrackPart> parts;
    for (std::size_t s = 0; s < sheets; ++s) {
        const std::size_t of_wanted = s < sheets / 2 ? s : s + wanted - sheets;
        const std::size_t from = all * of_wanted / wanted, to = all * (of_wanted + 1) / wanted;
        TrackPart part{from, to - from, sheets == 1};
        const bool folded = sheets < wanted;
        auto sheet = [&](std::size_t other) { return "on sheet " + std::to_string(other % sheets + 1); };
        part.before = folded && s == sheets / 2 ? "not drawn" : sheet(s + sheets - 1);
        part.after = folded && s + 1 == sheets / 2 ? "not drawn" : sheet(s + 1);
        parts.push_back(std::move(part));
    }
    return parts;
}

/// "bones 67 to 934 of the loop are not drawn", or nothing.
std::string folded_text(const CycleStory& story, const std::vector<TrackPart>& parts) {
    for (std::size_t i = 0; i + 1 < parts.size(); ++i) {
        const std::size_t end = parts[i].first + parts[i].count;
        if (parts[i + 1].first == end) continue;
        return (story.cycle.is_between_properties() ? "properties " : "bones ") + std::to_string(end + 1) + " to " +
               std::to_string(parts[i + 1].first) + " of the loop are not drawn";
    }
    return {};
}

void add_legend(Sheet& sheet) {
    LegendEntry number{{}, "number: the way round, edge by edge"};
    number.sample.width = 56, number.sample.height = 30;
    add_number(number.sample, {22, 15}, {1, 0}, 1, "");
    sheet.legend.push_back(std::move(number));
    const bool is_cut = !sheet.scene.signs.empty();
    if (!is_cut) return;
    LegendEntry cut{{}, "bars across a line: a place of the cut (one bar: of the finer cut)"};
    cut.sample.width = 56, cut.sample.height = 30;
    add_cut_bars(cut.sample, {20, 15}, {1, 0}, false, "");
    add_cut_bars(cut.sample, {40, 15}, {1, 0}, true, "");
    sheet.legend.push_back(std::move(cut));
}

/// What words take where none of them has to be broken.
double unbroken_width(const std::vector<Said>& words) {
    double width = 0;
    for (const Said& said : words) width = std::max(width, said.indent + width_of(said.words, said.size) + 24);
    return width;
}

/// Words beside the picture where there is room, else below it, else on sheets of their own.
void add_words(std::vector<Sheet>& sheets, const std::vector<Said>& words, Size picture, Room room) {
    Scene& scene = sheets.back().scene;
    scene.width = picture.width, scene.height = picture.height;
    const double beside = room.width - picture.width - gap, below = room.height - picture.height - gap / 2;
    Filled filled;
    if (beside >= narrowest) {
        const double width = std::min({beside, words_width, std::max(narrowest, unbroken_width(words))});
        Scene tried;  // one column where that is enough
        const bool in_one = fill_column(tried, {0, 0, width, room.height}, words, 0).next == words.size();
        const double taken = in_one ? width : beside;
        filled = fill_columns(scene, {picture.width + gap, 0, taken, room.height}, narrowest, words, 0);
        scene.width = picture.width + gap + taken;
        scene.height = std::max(picture.height, filled.bottom);
    } else if (below >= 90) {
        filled = fill_columns(scene, {0, picture.height + gap / 2, room.width, below}, narrowest, words, 0);
        scene.width = room.width;
        scene.height = filled.bottom;
    }
    while (filled.next < words.size()) {
        Scene& more = sheets.emplace_back().scene;
        filled = fill_columns(more, {0, 0, room.width, room.height}, narrowest, words, filled.next);
        more.width = room.width, more.height = filled.bottom;
    }
}

}  // namespace

bool is_taken_by(const Dependencies& dependencies, MakerId made_by, MakerId maker) {
    if (made_by == maker) return true;
    const Maker& made = dependencies.makers[made_by];
    if (made.kind != Maker::Kind::driver) return false;
    const DriverUse& use = dependencies.driver_uses[made.element];
    const bool is_weight = use.target == DriverUse::Target::weight || use.target == DriverUse::Target::source_weight;
    return is_weight && maker_of(dependencies, use.element) == maker;
}

CycleStory::CycleStory(const Subject& of, std::uint32_t at)
    : subject(of), cycle(of.facts.cycles[at]), index(at), signs(cycle.witness.size()) {
    if (at >= of.facts.cuts.size()) return;
    cut = &of.facts.cuts[at].cut;
    cut_on_loop = put_to_edges(*this, *cut, false, signs);
    if (!of.facts.cuts[at].finer) return;
    finer = &*of.facts.cuts[at].finer;
    finer_on_loop = put_to_edges(*this, *finer, true, signs);
}

std::string CycleStory::name_of_end(std::uint32_t id) const {
    return drawable(cycle.is_between_properties() ? subject.rig.properties[id].name : subject.rig.bones[id].name);
}

std::vector<std::uint32_t> cycles_to_draw(const Subject& subject) {
    const std::size_t count = subject.facts.cycles.size();
    if (subject.options.cycle) {
        if (*subject.options.cycle >= count) return {};
        return {static_cast<std::uint32_t>(*subject.options.cycle)};
    }
    std::vector<std::uint32_t> all(count);
    std::iota(all.begin(), all.end(), 0u);
    return all;
}

std::vector<Sheet> plan_of_cycle(const Subject& subject, std::uint32_t item, Room room) {
    const CycleStory story(subject, item);
    if (story.cycle.witness.empty()) return {};
    constexpr std::size_t few = 6;  // edges that go beside their words
    const Room track_room{story.cycle.witness.size() <= few ? room.width - 380 - gap : room.width, room.height};
    std::vector<Sheet> sheets;
    Size picture;
    const std::vector<TrackPart> parts = parts_of(story, track_room);
    for (const TrackPart& part : parts) {
        Scene& scene = sheets.emplace_back().scene;
        picture = add_track(scene, story, part, track_room.width);
        scene.width = picture.width, scene.height = picture.height;
    }
    const RestOfCycle rest = find_rest(story);
    const Size below = add_rest(sheets.back().scene, story, rest, picture.height + gap / 2, track_room);
    const bool rest_drawn = below.height > 0;
    if (rest_drawn) picture = {std::max(picture.width, below.width), picture.height + gap / 2 + below.height};
    add_words(sheets, words_of_cycle(story, rest, rest_drawn), picture, room);
    number_sheets(sheets, subject, "cycle-" + std::to_string(item + 1), title_of(story));
    const std::string folded = folded_text(story, parts);
    for (Sheet& sheet : sheets) {
        sheet.subtitle = subtitle_of(story);
        if (!folded.empty()) sheet.subtitle.push_back(folded);
        sheet.subject = item;
        if (!sheet.scene.nodes.empty()) add_legend(sheet);
    }
    return sheets;
}

}  // namespace ligament
