// Which parts of a transform does a constraint read and write? The table of constraint kinds.
#include "wiring.hpp"

namespace ligament {

Parts parts_written(const Constraint& constraint) {
    switch (constraint.kind) {
        case ConstraintKind::transform:
        case ConstraintKind::limit:
            return parts_of(constraint.channels);
        case ConstraintKind::position:
        case ConstraintKind::distance:
            return position_part;
        case ConstraintKind::rotation:
        case ConstraintKind::aim:
        case ConstraintKind::roll:
        case ConstraintKind::ik:
            return rotation_part;
        case ConstraintKind::scale:
            return scale_part;
        case ConstraintKind::stretch:
            return rotation_part | scale_part;
        case ConstraintKind::space:
        case ConstraintKind::path:
            return all_parts;
        case ConstraintKind::surface:
            return constraint.align ? position_part | rotation_part : position_part;
        case ConstraintKind::custom:
            return parts_of(constraint.writes);
    }
    return all_parts;
}

Parts parts_read(const Constraint& constraint, const Source& source) {
    if (source.at > 0) return all_parts;
    if (source.use == Source::Use::up || source.use == Source::Use::pole) return position_part;
    switch (constraint.kind) {
        case ConstraintKind::transform:
            return parts_of(constraint.channels);
        case ConstraintKind::rotation:
        case ConstraintKind::roll:
            return rotation_part;
        case ConstraintKind::scale:
            return scale_part;
        case ConstraintKind::space:
            return all_parts;
        case ConstraintKind::ik:
            return constraint.orient ? position_part | rotation_part : position_part;
        case ConstraintKind::custom:
            return parts_of(constraint.reads);
        case ConstraintKind::limit:
            return 0;
        case ConstraintKind::position:
        case ConstraintKind::aim:
        case ConstraintKind::stretch:
        case ConstraintKind::distance:
        case ConstraintKind::surface:
        case ConstraintKind::path:
            return position_part;
    }
    return all_parts;
}

}  // namespace ligament
