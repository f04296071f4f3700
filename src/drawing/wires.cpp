// How do wires run between boxes that stand in rows?
#include "wires.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <tuple>
#include <utility>

namespace ligament {

namespace {

/// Rows and columns of the table with what lies between them, as slots from left to right and from top to bottom. Channel r runs
/// below row r, gap c left of column c; there is none above the first row and none right of the last column.
std::uint32_t slot_of_row(std::uint32_t row) { return 2 * row; }
std::uint32_t slot_of_channel(std::uint32_t row) { return 2 * row + 1; }
std::uint32_t slot_of_gap(std::uint32_t column) { return 2 * column; }
std::uint32_t slot_of_column(std::uint32_t column) { return 2 * column + 1; }

/// What one net has in one channel or gap: a straight run on one track.
struct Run {
    std::uint32_t lane = 0;  // which channel or gap
    std::uint32_t net = 0;
    std::uint32_t low = none, high = 0;  // slots that it touches, along it
    std::uint32_t track = 0;             // class of runs that share a place
    std::vector<std::uint32_t> wires;

    void touch(std::uint32_t slot) { low = std::min(low, slot), high = std::max(high, slot); }
};

/// Channels or gaps: their runs, and which track is the how manieth.
struct Lanes {
    std::vector<Run> runs;                            // by lane, then by net
    std::vector<std::vector<std::uint32_t>> members;  // by lane: its runs
    std::vector<std::vector<std::uint32_t>> place;    // by lane and track: its place across
    std::vector<std::uint32_t> run_of_wire;
};

struct Board {
    std::span<const WiredBox> boxes;
    std::span<const Wire> wires;
    WireRules rules;
    std::vector<std::uint32_t> column;  // by box
    std::uint32_t rows = 0, columns = 0;
    std::vector<std::uint32_t> net;  // by wire
    Lanes channels, gaps;
    std::vector<double> pin;                            // by wire: distance from the left of its source
    std::vector<double> row_at, channel_at, column_at;  // where they start
    std::vector<double> row_size, channel_size, column_size, gap_size;

    std::uint32_t row_of_source(const Wire& wire) const { return boxes[wire.from].row; }
    std::uint32_t column_of_target(const Wire& wire) const { return column[wire.to]; }
};

void find_columns(Board& board) {
    std::map<std::uint32_t, std::uint32_t> next;
    for (const WiredBox& box : board.boxes) {
        std::uint32_t& free = next[box.row];
        const std::uint32_t at = box.column == none ? free : box.column;
        board.column.push_back(at);
        free = at + 1;
        board.rows = std::max(board.rows, box.row + 1);
        board.columns = std::max(board.columns, at + 1);
    }
}

/// A net for each source and lane, then one for each inlet that several of them would enter.
void find_nets(Board& board) {
    using Key = std::tuple<std::uint32_t, std::uint32_t, std::uint32_t>;  // 0, source, lane or 1, target, inlet
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::set<std::pair<std::uint32_t, std::uint32_t>>> entering;
    for (const Wire& wire : board.wires) entering[{wire.to, wire.inlet}].insert({wire.from, wire.lane});
    std::map<Key, std::uint32_t> numbers;
    for (const Wire& wire : board.wires) {
        const bool shared = entering[{wire.to, wire.inlet}].size() > 1;
        const Key key = shared ? Key{1, wire.to, wire.inlet} : Key{0, wire.from, wire.lane};
        board.net.push_back(numbers.try_emplace(key, static_cast<std::uint32_t>(numbers.size())).first->second);
    }
}

template <typename LaneOf, typename Touch>
Lanes find_runs(const Board& board, std::uint32_t count, LaneOf lane_of, Touch touch) {
    Lanes lanes;
    lanes.run_of_wire.resize(board.wires.size());
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::vector<std::uint32_t>> wires;
    for (std::uint32_t w = 0; w < board.wires.size(); ++w) wires[{lane_of(board.wires[w]), board.net[w]}].push_back(w);
    lanes.members.resize(count);
    lanes.place.resize(count);
    for (auto& [key, members] : wires) {
        const auto number = static_cast<std::uint32_t>(lanes.runs.size());
        Run& run = lanes.runs.emplace_back();
        std::tie(run.lane, run.net) = key;
        for (std::uint32_t w : members) touch(run, board.wires[w]), lanes.run_of_wire[w] = number;
        run.wires = std::move(members);
        lanes.members[run.lane].push_back(number);
    }
    return lanes;
}

/// The left-edge algorithm: runs by their lower end, each on the first track that is free again. Runs that touch one slot never
/// share a track, so that this holds whatever places their neighbours take inside it.
void assign_tracks(Lanes& lanes) {
    for (std::size_t lane = 0; lane < lanes.members.size(); ++lane) {
        std::vector<std::uint32_t> sorted = lanes.members[lane];
        std::stable_sort(sorted.begin(), sorted.end(),
                         [&](std::uint32_t a, std::uint32_t b) { return lanes.runs[a].low < lanes.runs[b].low; });
        std::vector<std::uint32_t> taken_to;
        for (std::uint32_t r : sorted) {
            Run& run = lanes.runs[r];
            const auto free = std::find_if(taken_to.begin(), taken_to.end(), [&](std::uint32_t high) { return high < run.low; });
            run.track = static_cast<std::uint32_t>(free - taken_to.begin());
            if (free == taken_to.end())
                taken_to.push_back(run.high);
            else
                *free = run.high;
        }
        lanes.place[lane].resize(taken_to.size());
        std::iota(lanes.place[lane].begin(), lanes.place[lane].end(), 0u);
    }
}

/// Pins of a box stand around its middle, those whose nets go left on the left.
void place_pins(Board& board) {
    std::map<std::uint32_t, std::map<std::uint32_t, std::vector<double>>> nets;  // by box and net: columns they go to
    for (std::uint32_t w = 0; w < board.wires.size(); ++w)
        nets[board.wires[w].from][board.net[w]].push_back(board.column_of_target(board.wires[w]) - 0.5);
    std::map<std::pair<std::uint32_t, std::uint32_t>, double> places;
    for (const auto& [box, leaving] : nets) {
        std::vector<std::pair<double, std::uint32_t>> sorted;
        for (const auto& [net, to] : leaving)
            sorted.emplace_back(std::accumulate(to.begin(), to.end(), 0.0) / static_cast<double>(to.size()), net);
        std::sort(sorted.begin(), sorted.end());
        const double width = board.boxes[box].width, count = static_cast<double>(sorted.size());
        const double apart = std::min(14.0, width / (count + 1));
        for (std::size_t i = 0; i < sorted.size(); ++i)
            places[{box, sorted[i].second}] = width / 2 + (static_cast<double>(i) - (count - 1) / 2) * apart;
    }
    for (std::uint32_t w = 0; w < board.wires.size(); ++w) board.pin.push_back(places[{board.wires[w].from, board.net[w]}]);
}

double sum_of(const std::vector<double>& sizes) { return std::accumulate(sizes.begin(), sizes.end(), 0.0); }

/// Shares what is left of `whole` among sizes[first] to the one before `last`.
void spread(std::vector<double>& sizes, std::size_t first, std::size_t last, double left, double most) {
    if (last <= first || left <= 0) return;
    const double more = std::min(most, left / static_cast<double>(last - first));
    for (std::size_t i = first; i < last; ++i) sizes[i] += more;
}

/// Sizes of rows, columns, channels and gaps.
void size_slots(Board& board) {
    const WireRules& rules = board.rules;
    board.row_size.assign(board.rows, 0), board.column_size.assign(board.columns, 0);
    for (std::size_t b = 0; b < board.boxes.size(); ++b) {
        double& height = board.row_size[board.boxes[b].row];
        double& width = board.column_size[board.column[b]];
        height = std::max(height, board.boxes[b].height), width = std::max(width, board.boxes[b].width);
    }
    for (std::uint32_t r = 0; r < board.rows; ++r) {
        const std::size_t tracks = board.channels.place[r].size();
        const double want = tracks ? 2 * rules.clearance + static_cast<double>(tracks - 1) * rules.pitch : 0;
        board.channel_size.push_back(r + 1 < board.rows ? std::max(want, rules.least_channel) : want);
    }
    for (std::uint32_t c = 0; c < board.columns; ++c) {
        const std::size_t tracks = board.gaps.place[c].size();
        const double want = tracks ? (c ? rules.clearance : 1) + rules.entry + static_cast<double>(tracks - 1) * rules.pitch : 0;
        board.gap_size.push_back(c ? std::max(want, rules.least_gap) : want);
    }
    spread(board.gap_size, 1, board.columns, rules.width - sum_of(board.gap_size) - sum_of(board.column_size), rules.most_spread);
    spread(board.channel_size, 0, board.rows ? board.rows - 1 : 0,
           rules.height - sum_of(board.channel_size) - sum_of(board.row_size), rules.most_spread);
}

void place_slots(Board& board) {
    double y = 0, x = 0;
    for (std::uint32_t r = 0; r < board.rows; ++r) {
        board.row_at.push_back(y);
        board.channel_at.push_back(y += board.row_size[r]);
        y += board.channel_size[r];
    }
    for (std::uint32_t c = 0; c < board.columns; ++c) {
        board.column_at.push_back(x += board.gap_size[c]);
        x += board.column_size[c];
    }
}

double track_y(const Board& board, const Run& run) {
    const auto& place = board.channels.place[run.lane];
    const double used = static_cast<double>(place.size() - 1) * board.rules.pitch;
    return board.channel_at[run.lane] + (board.channel_size[run.lane] - used) / 2 + place[run.track] * board.rules.pitch;
}

double track_x(const Board& board, const Run& run) {
    const auto& place = board.gaps.place[run.lane];
    const double used = static_cast<double>(place.size() - 1) * board.rules.pitch;
    const double right = board.column_at[run.lane] - board.rules.entry;
    const double slack = board.gap_size[run.lane] - board.rules.entry - used - (run.lane ? board.rules.clearance : 1);
    return right - slack / 2 - used + place[run.track] * board.rules.pitch;
}

double pin_x(const Board& board, std::uint32_t w) { return board.column_at[board.column[board.wires[w].from]] + board.pin[w]; }

double inlet_y(const Board& board, std::uint32_t w) {
    const Wire& wire = board.wires[w];
    return board.row_at[board.boxes[wire.to].row] + board.boxes[wire.to].inlets[wire.inlet];
}

/// A run where it lies now, and where other parts of its net leave it, `before` or behind it (above and below a channel's run,
/// left and right of a gap's).
struct Laid {
    double low = 0, high = 0;
    std::vector<double> before, behind;
};

void finish(Laid& laid) {
    for (std::vector<double>* at : {&laid.before, &laid.behind}) {
        std::sort(at->begin(), at->end());
        at->erase(std::unique(at->begin(), at->end()), at->end());
    }
    laid.low = 1e18, laid.high = -1e18;
    for (const std::vector<double>* at : {&laid.before, &laid.behind})
        for (double p : *at) laid.low = std::min(laid.low, p), laid.high = std::max(laid.high, p);
}

Laid lay_in_channel(const Board& board, const Run& run) {
    Laid laid;
    for (std::uint32_t w : run.wires) {
        laid.before.push_back(pin_x(board, w));
        const Run& upright = board.gaps.runs[board.gaps.run_of_wire[w]];
        const double x = track_x(board, upright);
        if (upright.low < slot_of_channel(run.lane)) laid.before.push_back(x);
        if (upright.high > slot_of_channel(run.lane)) laid.behind.push_back(x);
    }
    finish(laid);
    return laid;
}

Laid lay_in_gap(const Board& board, const Run& run) {
    Laid laid;
    for (std::uint32_t w : run.wires) {
        laid.behind.push_back(inlet_y(board, w));
        const Run& level = board.channels.runs[board.channels.run_of_wire[w]];
        const double y = track_y(board, level);
        if (level.low < slot_of_gap(run.lane)) laid.before.push_back(y);
        if (level.high > slot_of_gap(run.lane)) laid.behind.push_back(y);
    }
    finish(laid);
    return laid;
}

std::size_t count_inside(const std::vector<double>& sorted, double low, double high) {
    return static_cast<std::size_t>(std::lower_bound(sorted.begin(), sorted.end(), high) -
                                    std::upper_bound(sorted.begin(), sorted.end(), low));
}

/// What it costs in crossings that `a` lies before `b`.
std::size_t crossings_before(const Laid& a, const Laid& b) {
    return count_inside(b.before, a.low, a.high) + count_inside(a.behind, b.low, b.high);
}

/// Puts each track in turn where it crosses least, until nothing gets better (sifting: Rudell 1993, as used for layered drawings
/// by Matuszewski, Schoenfeld and Molitor 1999; from memory). `cost[a][b]`: that a lies before b.
void sift(std::vector<std::uint32_t>& order, const std::vector<std::vector<std::size_t>>& cost) {
    constexpr int most_passes = 6;
    bool moved = true;
    for (int pass = 0; moved && pass < most_passes; ++pass) {
        moved = false;
        for (std::uint32_t item = 0; item < order.size(); ++item) {
            const auto at = static_cast<std::size_t>(std::find(order.begin(), order.end(), item) - order.begin());
            std::vector<std::uint32_t> others = order;
            others.erase(others.begin() + static_cast<std::ptrdiff_t>(at));
            std::size_t now = 0;
            for (std::uint32_t other : others) now += cost[item][other];
            std::vector<std::size_t> costs{now};
            for (std::uint32_t other : others) costs.push_back(now += cost[other][item] - cost[item][other]);
            const auto best = static_cast<std::size_t>(std::min_element(costs.begin(), costs.end()) - costs.begin());
            if (costs[best] >= costs[at]) continue;
            others.insert(others.begin() + static_cast<std::ptrdiff_t>(best), item);
            order = std::move(others), moved = true;
        }
    }
}

/// More tracks than this stay in the order in which they were found.
constexpr std::size_t most_ordered = 160;

void order_tracks(Lanes& lanes, const std::vector<Laid>& laid) {
    for (std::size_t lane = 0; lane < lanes.members.size(); ++lane) {
        std::vector<std::uint32_t>& place = lanes.place[lane];
        if (place.size() < 2 || place.size() > most_ordered) continue;
        std::vector<std::vector<std::size_t>> cost(place.size(), std::vector<std::size_t>(place.size(), 0));
        for (std::uint32_t a : lanes.members[lane])
            for (std::uint32_t b : lanes.members[lane])
                if (lanes.runs[a].track != lanes.runs[b].track)
                    cost[lanes.runs[a].track][lanes.runs[b].track] += crossings_before(laid[a], laid[b]);
        std::vector<std::uint32_t> order(place.size());
        for (std::uint32_t track = 0; track < place.size(); ++track) order[place[track]] = track;
        sift(order, cost);
        for (std::uint32_t at = 0; at < order.size(); ++at) place[order[at]] = at;
    }
}

Wiring read_off(const Board& board) {
    Wiring wiring;
    for (std::size_t b = 0; b < board.boxes.size(); ++b)
        wiring.boxes.push_back(
            {board.column_at[board.column[b]], board.row_at[board.boxes[b].row], board.boxes[b].width, board.boxes[b].height});
    for (std::uint32_t w = 0; w < board.wires.size(); ++w) {
        const double x = pin_x(board, w), y = track_y(board, board.channels.runs[board.channels.run_of_wire[w]]);
        const double gap = track_x(board, board.gaps.runs[board.gaps.run_of_wire[w]]), inlet = inlet_y(board, w);
        const Rect& source = wiring.boxes[board.wires[w].from];
        const Rect& target = wiring.boxes[board.wires[w].to];
        wiring.wires.push_back({{x, source.bottom()}, {x, y}, {gap, y}, {gap, inlet}, {target.x, inlet}});
    }
    wiring.nets = board.net;
    if (board.columns) wiring.width = board.column_at.back() + board.column_size.back();
    if (board.rows) wiring.height = board.channel_at.back() + board.channel_size.back();
    return wiring;
}

}  // namespace

Wiring lay_wires(std::span<const WiredBox> boxes, std::span<const Wire> wires, const WireRules& rules) {
    Board board;
    board.boxes = boxes, board.wires = wires, board.rules = rules;
    find_columns(board);
    find_nets(board);
    board.channels = find_runs(
        board, board.rows, [&](const Wire& wire) { return board.row_of_source(wire); },
        [&](Run& run, const Wire& wire) {
            run.touch(slot_of_column(board.column[wire.from]));
            run.touch(slot_of_gap(board.column_of_target(wire)));
        });
    board.gaps = find_runs(
        board, board.columns, [&](const Wire& wire) { return board.column_of_target(wire); },
        [&](Run& run, const Wire& wire) {
            run.touch(slot_of_channel(board.row_of_source(wire)));
            run.touch(slot_of_row(boxes[wire.to].row));
        });
    assign_tracks(board.channels);
    assign_tracks(board.gaps);
    place_pins(board);
    size_slots(board);
    place_slots(board);

    Wiring best = read_off(board);
    if (!rules.few_crossings) return best;
    std::size_t fewest = count_crossings(best);
    constexpr int rounds = 3;
    for (int round = 0; round < rounds && fewest > 0; ++round) {
        std::vector<Laid> laid;
        for (const Run& run : board.gaps.runs) laid.push_back(lay_in_gap(board, run));
        order_tracks(board.gaps, laid);
        laid.clear();
        for (const Run& run : board.channels.runs) laid.push_back(lay_in_channel(board, run));
        order_tracks(board.channels, laid);
        Wiring next = read_off(board);
        const std::size_t crossings = count_crossings(next);
        if (crossings >= fewest) break;
        best = std::move(next), fewest = crossings;
    }
    return best;
}

}  // namespace ligament
