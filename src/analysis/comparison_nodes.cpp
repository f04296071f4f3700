#include "comparison_nodes.hpp"

#include <algorithm>
#include <map>
#include <queue>
#include <string>
#include <tuple>
#include <unordered_map>

namespace ligament {

namespace {

constexpr float unknown_share = 0.25F;        // of a trait whose other element has no counterpart
constexpr float like_renaming = 2;            // weight of names that differ as others do
constexpr std::size_t most_pairs = 256;       // of one trait; past it only those are paired that are alike
constexpr std::uint32_t few_neighbours = 64;  // elements with more are not looked at again for each one of them

struct Token {
    std::uint64_t id = 0;
    float weight = 0;
    bool is_telling = false;  ///< hardly shared by chance
    bool speaks_for_alone = false;
};

/// The traits of a node in words that both revisions share: what is matched is called by its number before.
std::vector<Token> tokens_of(const Surroundings& of, const std::vector<std::uint32_t>* to_before, const Counterparts& nodes,
                             std::uint32_t node) {
    std::vector<Token> tokens;
    tokens.reserve(of.traits[node].size());
    for (const Trait& trait : of.traits[node]) {
        if (trait.node == none) {
            tokens.push_back({mixed(trait.relation, 0), trait.weight, trait.weight >= rename_evidence, trait.speaks_for_alone});
            continue;
        }
        const bool is_old = to_before == nullptr;
        const std::uint32_t other = is_old ? (nodes.after[trait.node] == none ? none : trait.node) : (*to_before)[trait.node];
        if (other == none)
            tokens.push_back({mixed(trait.relation, 1), trait.weight * unknown_share, false, false});
        else
            tokens.push_back(
                {mixed(trait.relation, 2 + std::uint64_t{other}), trait.weight, trait.weight >= rename_evidence, false});
    }
    std::sort(tokens.begin(), tokens.end(), [](const Token& a, const Token& b) { return a.id < b.id; });
    return tokens;
}

struct Shares {
    double both = 0, either = 0;
    bool is_telling = false;  ///< one of the traits that both have is

    double certainty() const { return is_telling ? both / (either + rename_doubt) : 0; }
};

/// What a trait counts that one of two has alone.
float alone(const Token& token) { return token.speaks_for_alone ? 0 : token.weight; }

Shares shares_of(const std::vector<Token>& old_tokens, const std::vector<Token>& new_tokens) {
    Shares shares;
    auto o = old_tokens.begin(), n = new_tokens.begin();
    while (o != old_tokens.end() || n != new_tokens.end()) {
        if (n == new_tokens.end() || (o != old_tokens.end() && o->id < n->id)) {
            shares.either += alone(*o++);
        } else if (o == old_tokens.end() || n->id < o->id) {
            shares.either += alone(*n++);
        } else {
            shares.both += o->weight;
            shares.is_telling |= o->is_telling;
            shares.either += o->weight;
            ++o, ++n;
        }
    }
    return shares;
}

Shares shares_of(const Surroundings& before, const Surroundings& after, const Counterparts& nodes, std::uint32_t old_node,
                 std::uint32_t new_node) {
    return shares_of(tokens_of(before, nullptr, nodes, old_node), tokens_of(after, &nodes.before, nodes, new_node));
}

/// What two names have in common at their ends, and what stands between.
struct Renaming {
    std::size_t shared = 0;
    std::uint64_t change = 0;  ///< of what into what; 0 where one holds nothing of the other
};

Renaming renaming_of(std::string_view before, std::string_view after) {
    const std::size_t most = std::min(before.size(), after.size());
    std::size_t head = 0, tail = 0;
    while (head < most && before[head] == after[head]) ++head;
    while (tail < most - head && before[before.size() - 1 - tail] == after[after.size() - 1 - tail]) ++tail;
    if (head + tail == 0) return {};
    return {head + tail, mixed(mixed(before.substr(head, before.size() - head - tail)),
                               mixed(after.substr(head, after.size() - head - tail)))};
}

struct Pair {
    double score = 0;
    std::size_t shared = 0;
    std::uint32_t before = none, after = none;

    /// The one to take first is the greatest. Alike whichever revision comes first, but for pairs that have nothing in common.
    bool operator<(const Pair& other) const {
        const auto key = [](const Pair& p) {
            const std::uint64_t sum = std::uint64_t{p.before} + p.after;
            return std::tuple(p.score, p.shared, ~sum, ~std::max(p.before, p.after), ~p.before);
        };
        return key(*this) < key(other);
    }
};

struct Matcher {
    const Surroundings& before;
    const Surroundings& after;
    NodeMatching matching;
    std::vector<std::vector<std::uint32_t>> partners_of_old, partners_of_new;  ///< pairs that were looked at
    std::vector<std::uint32_t> events, next_event;                             ///< by node before
    std::unordered_map<std::uint64_t, std::uint32_t> renamings;                ///< how often names changed alike
    std::vector<bool> is_ambiguous_before, is_ambiguous;                       ///< by node
    std::priority_queue<Pair> queue;

    bool is_open(std::uint32_t o, std::uint32_t n) const {
        return matching.nodes.after[o] == none && matching.nodes.before[n] == none;
    }

    Pair judge(std::uint32_t o, std::uint32_t n) const {
        Shares shares = shares_of(before, after, matching.nodes, o, n);
        const Renaming renaming = renaming_of(before.names[o], after.names[n]);
        if (renaming.change != 0 && renamings.contains(renaming.change))
            shares.both += like_renaming, shares.either += like_renaming;
        return {shares.certainty(), renaming.shared, o, n};
    }

    void consider(std::uint32_t o, std::uint32_t n) {
        if (!is_open(o, n) || before.sort_of(o) != after.sort_of(n)) return;
        std::vector<std::uint32_t>& partners = partners_of_old[o];
        if (std::find(partners.begin(), partners.end(), n) == partners.end()) {
            partners.push_back(n);
            partners_of_new[n].push_back(o);
        }
        const Pair pair = judge(o, n);
        if (pair.score >= rename_threshold) queue.push(pair);
    }

    /// What is said about a node by itself.
    static std::uint64_t own_key(const Surroundings& of, std::uint32_t node) {
        std::uint64_t key = static_cast<std::uint64_t>(of.sort_of(node));
        for (const Trait& trait : of.traits[node])
            if (trait.node == none) key += mixed(trait.relation, 9);
        return key;
    }

    /// Pairs of what shares a trait: all where they are few, else those that are alike, at worst the first with the first.
    void pair_up(const std::vector<std::uint32_t>& olds, const std::vector<std::uint32_t>& news) {
        if (olds.empty() || news.empty()) return;
        if (olds.size() * news.size() <= most_pairs) {
            for (const std::uint32_t o : olds)
                for (const std::uint32_t n : news) consider(o, n);
            return;
        }
        std::map<std::uint64_t, std::pair<std::vector<std::uint32_t>, std::vector<std::uint32_t>>> alike;
        for (const std::uint32_t o : olds) alike[own_key(before, o)].first.push_back(o);
        for (const std::uint32_t n : news) alike[own_key(after, n)].second.push_back(n);
        for (const auto& [key, pair] : alike) {
            const auto& [some, others] = pair;
            if (some.size() * others.size() <= most_pairs / 4) {
                for (const std::uint32_t o : some)
                    for (const std::uint32_t n : others) consider(o, n);
                continue;
            }
            for (std::size_t i = 0; i < std::min(some.size(), others.size()); ++i) consider(some[i], others[i]);
        }
    }

    void match_names() {
        std::unordered_map<std::string, std::uint32_t> known;
        const auto key = [](const Surroundings& of, std::uint32_t node) {
            return std::to_string(static_cast<int>(of.sort_of(node))) + std::string(of.names[node]);
        };
        for (std::uint32_t o = 0; o < before.size(); ++o) known.emplace(key(before, o), o);
        for (std::uint32_t n = 0; n < after.size(); ++n) {
            const auto found = known.find(key(after, n));
            if (found == known.end() || matching.nodes.after[found->second] != none) continue;
            matching.nodes.after[found->second] = n;
            matching.nodes.before[n] = found->second;
        }
    }

    using Buckets = std::map<std::uint64_t, std::pair<std::vector<std::uint32_t>, std::vector<std::uint32_t>>>;

    void pair_up_all() {
        Buckets buckets;
        for (std::uint32_t o = 0; o < before.size(); ++o) {
            if (matching.nodes.after[o] != none) continue;
            for (const Token& token : unique_tokens(before, nullptr, o)) buckets[token.id].first.push_back(o);
        }
        for (std::uint32_t n = 0; n < after.size(); ++n) {
            if (matching.nodes.before[n] != none) continue;
            for (const Token& token : unique_tokens(after, &matching.nodes.before, n)) {
                const auto found = buckets.find(token.id);
                if (found != buckets.end()) found->second.second.push_back(n);
            }
        }
        for (const auto& [id, bucket] : buckets) pair_up(bucket.first, bucket.second);
    }

    std::vector<Token> unique_tokens(const Surroundings& of, const std::vector<std::uint32_t>* to_before,
                                     std::uint32_t node) const {
        std::vector<Token> tokens = tokens_of(of, to_before, matching.nodes, node);
        const auto is_same = [](const Token& a, const Token& b) { return a.id == b.id; };
        tokens.erase(std::unique(tokens.begin(), tokens.end(), is_same), tokens.end());
        return tokens;
    }

    /// Where another pair of one of the two fits as well, neither that nor this one is sure.
    void mark_rivals(const Pair& taken) {
        const auto mark = [&](std::uint32_t o, std::uint32_t n) {
            if (!is_open(o, n) || (o == taken.before && n == taken.after)) return;
            const Pair pair = judge(o, n);
            if (pair.score < taken.score - 1e-9 || pair.shared < taken.shared) return;
            is_ambiguous_before[o] = is_ambiguous_before[taken.before] = true;
            is_ambiguous[n] = is_ambiguous[taken.after] = true;
        };
        for (const std::uint32_t n : partners_of_old[taken.before]) mark(taken.before, n);
        for (const std::uint32_t o : partners_of_new[taken.after]) mark(o, taken.after);
    }

    void accept(const Pair& pair) {
        mark_rivals(pair);
        matching.nodes.after[pair.before] = pair.after;
        matching.nodes.before[pair.after] = pair.before;
        if (const auto change = renaming_of(before.names[pair.before], after.names[pair.after]).change; change != 0)
            ++renamings[change];
        look_beside(pair);
    }

    /// What was tied to both alike may be one, too.
    void look_beside(const Pair& pair) {
        Buckets beside;
        for (const Trait& trait : before.traits[pair.before]) {
            if (trait.node == none || matching.nodes.after[trait.node] != none) continue;
            if (++events[trait.node] < next_event[trait.node]) continue;
            const bool is_hub = before.traits[trait.node].size() > few_neighbours;
            next_event[trait.node] = events[trait.node] + (is_hub ? 1 + events[trait.node] / 4 : 1);
            beside[trait.relation].first.push_back(trait.node);
        }
        if (beside.empty()) return;
        for (const Trait& trait : after.traits[pair.after]) {
            if (trait.node == none || matching.nodes.before[trait.node] != none) continue;
            const auto found = beside.find(trait.relation);
            if (found != beside.end()) found->second.second.push_back(trait.node);
        }
        for (const auto& [relation, bucket] : beside) pair_up(bucket.first, bucket.second);
    }

    void take_best() {
        while (!queue.empty()) {
            const Pair pair = queue.top();
            queue.pop();
            if (!is_open(pair.before, pair.after)) continue;
            const Pair now = judge(pair.before, pair.after);
            if (now.score == pair.score)
                accept(now);
            else if (now.score >= rename_threshold)
                queue.push(now);
        }
    }

    /// Pairs that were turned down while less was known, once more; as often as that finds something, within reason.
    void take_rest() {
        constexpr int most_rounds = 4;
        for (int round = 0; round < most_rounds; ++round) {
            for (std::uint32_t o = 0; o < before.size(); ++o) {
                if (matching.nodes.after[o] != none) continue;
                const std::vector<std::uint32_t> partners = partners_of_old[o];
                for (const std::uint32_t n : partners) consider(o, n);
            }
            if (queue.empty()) return;
            take_best();
        }
    }

    /// Certainty as it is in the end. A pair that came to look unlikely is let go.
    void tell_certainty() {
        std::vector<std::pair<std::uint32_t, double>> told;
        for (std::uint32_t n = 0; n < after.size(); ++n) {
            const std::uint32_t o = matching.nodes.before[n];
            if (o == none || before.names[o] == after.names[n]) continue;
            const std::uint64_t change = renaming_of(before.names[o], after.names[n]).change;
            Shares shares = shares_of(before, after, matching.nodes, o, n);
            if (const auto found = renamings.find(change); change != 0 && found != renamings.end() && found->second > 1)
                shares.both += like_renaming, shares.either += like_renaming;
            told.emplace_back(n, shares.certainty());
        }
        for (const auto& [n, certainty] : told) {
            matching.certainty[n] = certainty * (is_ambiguous[n] || is_ambiguous_before[matching.nodes.before[n]] ? 0.5 : 1);
            if (certainty >= rename_threshold) continue;
            matching.certainty[n] = 1;
            matching.nodes.after[matching.nodes.before[n]] = none;
            matching.nodes.before[n] = none;
        }
    }
};

}  // namespace

NodeMatching match_nodes(const Surroundings& before, const Surroundings& after) {
    Matcher matcher{before, after, {}, {}, {}, {}, {}, {}, {}, {}, {}};
    matcher.matching.nodes.after.assign(before.size(), none);
    matcher.matching.nodes.before.assign(after.size(), none);
    matcher.matching.certainty.assign(after.size(), 1);
    matcher.partners_of_old.resize(before.size());
    matcher.partners_of_new.resize(after.size());
    matcher.events.assign(before.size(), 0);
    matcher.next_event.assign(before.size(), 1);
    matcher.is_ambiguous_before.assign(before.size(), false);
    matcher.is_ambiguous.assign(after.size(), false);
    matcher.match_names();
    matcher.pair_up_all();
    matcher.take_best();
    matcher.take_rest();
    matcher.tell_certainty();
    return std::move(matcher.matching);
}

}  // namespace ligament
