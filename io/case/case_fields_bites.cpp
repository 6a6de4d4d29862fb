// SPDX-License-Identifier: AGPL-3.0-or-later

#include "io/case/case_fields.hpp"
#include "mesh/shape/domain.hpp"
#include "solver/model/bite.hpp"

namespace crownproof {
namespace {

const std::vector<std::string>& direction_names() {
  static const std::vector<std::string> names{"axial", "surface_normal"};
  return names;
}

template <class T>
Field<T> direction_field() {
  FieldInfo info{
      .key = "direction", .kind = FieldKind::either, .help = "Direction of the force on the crown"};
  info.default_text = "axial";
  info.fields.push_back(
      {.key = "direction",
       .kind = FieldKind::choice,
       .help =
           "axial: along the path of insertion towards the root; surface_normal: straight into the surface, "
           "without friction",
       .choices = direction_names()});
  info.fields.push_back(
      {.key = "direction",
       .kind = FieldKind::numbers,
       .help = "x (mesial to distal), y (lingual to buccal), z (root to crown) of any length but 0",
       .count = 3});
  return {info, [](T& target, const YamlNode& node, const std::string& path) {
            if (node.kind != YamlKind::list) {
              const int i = to_choice(node, direction_names(), path);
              target.direction = i == 0 ? ForceDirection::axial : ForceDirection::surface_normal;
              return;
            }
            const std::vector<double> v = to_numbers(node, 3, path);
            const Vec3 direction(v[0], v[1], v[2]);
            if (!(direction.norm() > 1e-9) || !(direction.norm() < 1e9))
              throw UserError(node.place,
                              fmt::format("'{}' has no direction. Write for instance [0, 0.3, -1].", path));
            target.direction = Vec3(direction.normalized());
          }};
}

template <class T>
Field<T> at_field() {
  return {
      {.key = "at", .kind = FieldKind::text, .help = "Landmark of the shape; 'crownproof check' lists them"},
      [](T& target, const YamlNode& node, const std::string& path) {
        target.at = Placed<std::string>{to_text(node, "'" + path + "'"), node.place};
      }};
}

template <class T>
Field<T> at_mm_field() {
  return {
      {.key = "at_mm",
       .kind = FieldKind::numbers,
       .help = "x (mesial to distal) and y (lingual to buccal); the contact lies on the outer surface above",
       .count = 2},
      [](T& target, const YamlNode& node, const std::string& path) {
        const std::vector<double> xy = to_numbers(node, 2, path);
        target.at_mm = Placed<std::pair<double, double>>{{xy[0], xy[1]}, node.place};
      }};
}

Section<ContactCase> contact_section() {
  using C = ContactCase;
  Section<C> all;
  all.fields = {
      at_field<C>(),
      at_mm_field<C>(),
      number("force_N", &C::force_N, above(0, 10000),
             "Force of this contact; left out where the bite has `total_force_N`"),
      number("share", &C::share, above(0, 1000),
             "Weight of this contact in the bite's `total_force_N`; left out: 1, all alike"),
      number("radius_mm", &C::radius_mm, between(0.05, 5), "Radius of the contact patch"),
      choice("pressure", &C::pressure, {{"hertz", PressureShape::hertz}, {"uniform", PressureShape::uniform}},
             "How the pressure is spread over the patch: highest in the middle as under a ball, or "
             "everywhere alike"),
      direction_field<C>(),
  };
  all.one_of = {{"at", "at_mm"}};
  return all;
}

Section<AntagonistCase> antagonist_section() {
  using A = AntagonistCase;
  Section<A> all;
  all.fields = {
      at_field<A>(),
      at_mm_field<A>(),
      choice("ball", &A::ball,
             {{"enamel_cusp", BallKind::enamel_cusp},
              {"steel_ball", BallKind::steel_ball},
              {"rigid", BallKind::rigid}},
             "What the ball is made of: a cusp of enamel, the ball of a testing machine, or something that "
             "does not give way"),
      number("radius_mm", &A::radius_mm, between(0.5, 50),
             "Radius of the ball; an unworn cusp has 2 to 4 mm"),
      required(number("force_N", &A::force_N, above(0, 10000), "Force the ball is pressed with")),
      direction_field<A>(),
      truth(
          "held_sideways", &A::held_sideways,
          "true: held as by a testing machine, above the place it is aimed at; false: it slides to its seat "
          "and carries no lateral force"),
  };
  all.one_of = {{"at", "at_mm"}};
  return all;
}

/// Either each contact has its force, or the bite has one that they share.
void check_forces(const BiteCase& bite, const YamlNode& node, const std::string&) {
  const YamlNode* contacts = node.find("contacts");
  if (bite.total_force_N && contacts == nullptr)
    throw UserError(bite.total_force_N->place,
                    "'total_force_N' is shared by contacts. An antagonist has its own 'force_N'.");
  for (std::size_t i = 0; i < bite.contacts.size(); ++i) {
    const Place& place = contacts->items[i].place;
    if (bite.total_force_N && bite.contacts[i].force_N)
      throw UserError(place,
                      "the bite has 'total_force_N', so its contacts have no 'force_N' of their own. "
                      "Give each a 'share', or leave out 'total_force_N'.");
    if (!bite.total_force_N && !bite.contacts[i].force_N)
      throw UserError(place,
                      "this contact has no 'force_N'. Give it one, or give the bite a 'total_force_N' that "
                      "its contacts share.");
    if (!bite.total_force_N && bite.contacts[i].share)
      throw UserError(place, "'share' is a part of the bite's 'total_force_N', which is not given.");
  }
}

}  // namespace

Section<BiteCase> bite_section() {
  using B = BiteCase;
  return {
      {
          required(text("name", &B::name, "Name in tables and pictures")),
          placed_number("total_force_N", &B::total_force_N, above(0, 10000),
                        "Resultant force of the bite, shared by its contacts by their `share`; in place of a "
                        "`force_N` for each"),
          sections("contacts", &B::contacts, contact_section(),
                   "Where the bite touches: worn facets of a known size"),
          section("antagonist", &B::antagonist, antagonist_section(),
                  "A ball that finds where it touches, without friction; in place of contacts"),
      },
      {{"contacts", "antagonist"}},
      check_forces};
}

}  // namespace crownproof
