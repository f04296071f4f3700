// What does the rig description say of an element, key by key, as text that can be compared?
#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "ligament/comparison.hpp"

namespace ligament {

/// Whether a constraint at a place of its stack has a name that is more than its kind and place, which is what reading fills in.
bool has_given_name(const Constraint& constraint, std::size_t index);

/// Writes values of one revision: for people with its own names, or to be compared, with what both revisions call the same.
class ValueWriter {
  public:
    /// For people.
    explicit ValueWriter(const Rig& rig) : rig_(rig) {}
    /// To be compared: elements are called by their id after where they have one.
    ValueWriter(const Rig& rig, const Matching& matching, bool is_before);

    struct Field {
        std::string key, value;
    };
    std::vector<Field> of_rig() const;
    std::vector<Field> of_bone(const Bone& bone) const;  ///< without its constraints
    std::vector<Field> of_constraint(const Constraint& constraint) const;
    std::vector<Field> of_property(const Property& property) const;
    std::vector<Field> of_object(const Object& object) const;

  private:
    std::string bone(BoneId id) const;
    std::string property(PropertyId id) const;
    std::string object(ObjectId id) const;
    std::string group(const std::string& name) const;
    std::string input(const Input& input) const;
    std::string value(const Value& value) const;
    std::string source(const Source& source) const;
    void add_sources(const Constraint& constraint, std::vector<Field>& fields) const;

    const Rig& rig_;
    const std::vector<std::uint32_t>* bones_ = nullptr;  ///< by id; null: names
    const std::vector<std::uint32_t>* properties_ = nullptr;
    const std::vector<std::uint32_t>* objects_ = nullptr;
    bool is_before_ = false;
    std::unordered_map<std::string, std::string> groups_;
};

}  // namespace ligament
