// What a lab keeps beside what it fires: cases, lots, bench steps, references, deviations, persons, locks, the
// lab itself, and what became of a firing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "quantity/quantity.h"
#include "trade/check.h"
#include "trade/furnace.h"
#include "trade/place.h"

namespace heatwork::trade {

/// A person's work for one patient; a case code, never a patient's name.
struct Case {
  std::string name;  ///< the case code
  std::string label;
  std::string note;
  std::vector<int> teeth;                  ///< ISO 3950
  std::vector<Given<std::string>> pieces;  ///< names of Pieces
  std::string ordered;                     ///< day, 2026-11-25; may be empty
  std::string wanted;                      ///< day it must leave the lab; may be empty
  std::string next_step;                   ///< in words; may be empty
  bool closed = false;
  PlacesByKey places;
  Place place;
};

/// A jar, bottle or block packet as it stands on the shelf.
struct Lot {
  std::string name;
  std::string label;
  std::string note;
  Maybe<std::string> material;  ///< name of a Material
  Maybe<std::string> liquid;    ///< name of a Liquid
  std::string code;             ///< as printed on the packet
  std::string opened;           ///< day; may be empty
  std::string expires;          ///< day; may be empty
  bool used_up = false;
  Place place;
};

enum class BenchWork { build_up, opaque, wash, liner, stain, glaze, grind, blast, clean, etch, cement, polish, other };

/// What was done to pieces between firings. A piece that changed in it has a new version of its own.
struct BenchStep {
  std::string name;
  std::string label;
  std::string note;
  Given<BenchWork> work;
  std::vector<Given<std::string>> pieces;  ///< names of Pieces
  std::vector<Given<std::string>> lots;    ///< names of Lots that were used
  std::string at;                          ///< UTC, 2026-11-25T17:11:04Z
  std::string person;                      ///< code
  Place place;
};

enum class ReferenceOf { silver_wire, gold_wire, thermocouple, vacuum_gauge, barometer, shade_tab, other };

/// What furnaces are checked with.
struct Reference {
  std::string name;
  std::string label;
  std::string note;
  Given<ReferenceOf> of;
  std::string certificate;  ///< number as printed; may be empty
  std::string certified;    ///< day it was certified or calibrated last; may be empty
  std::string expires;      ///< last day by the certificate itself; may be empty
  Maybe<int> every_days;    ///< it is certified anew after so many days
  Maybe<IntervalBy> by;     ///< who says so; absent: the lab
  std::string stated_in;    ///< where the furnace maker says so
  PlacesByKey places;
  Place place;
};

enum class DeviationDecision { open, use_as_it_is, fire_again, make_again, reject };

/// Something left what was laid down: what, what was decided, who released it.
struct Deviation {
  std::string name;
  std::string label;
  std::string note;
  std::string from;                        ///< what was left: "instruction, hold at most 1 min"
  std::string found;                       ///< what was found
  Maybe<std::string> firing;               ///< name of a Firing
  std::vector<Given<std::string>> pieces;  ///< names of Pieces
  Given<DeviationDecision> decision;
  std::string reason;
  std::string trial;                     ///< trial firing on a tab, in words; may be empty
  std::string found_at, found_by;        ///< UTC; code
  std::string released_at, released_by;  ///< UTC; code; empty: not released
  PlacesByKey places;
  Place place;
};

enum class PersonRole { look, fire, release };  ///< each may do what those before it may; setting up is apart

enum class FiringState { planned, started, ended, interrupted, called_off };

/// Which text a name stood for when the firing was rehearsed or started.
struct NameUsed {
  std::string kind;  ///< "furnace"
  std::string name;
  int version = 0;       ///< of the store's document; 0: it came from elsewhere
  std::string snapshot;  ///< BLAKE2b-256 of the text kept for it, where version is 0
  Place place;
};

/// What was read off the furnace, or its log.
struct MeasuredFiring {
  Maybe<quantity::Temperature> highest_display;
  Maybe<quantity::Duration> hold;
  Maybe<quantity::Pressure> lowest_pressure;
  Maybe<quantity::Duration> duration;
  std::string log_hash;  ///< BLAKE2b-256 of a log's file; may be empty
};

enum class PieceOutcome { as_wanted, fire_again, make_again, not_judged };

/// How one piece came out.
struct PieceFired {
  Given<std::string> piece;
  Given<PieceOutcome> outcome;
  Maybe<quantity::TemperatureDifference> looked_like;  ///< degree of firing seen: like so much too much
  std::string seen;                                    ///< in words
};

struct PhotoKept {
  std::string hash;  ///< BLAKE2b-256 of its bytes
  std::string of;    ///< in words
  Place place;
};

/// What became of a firing: nothing in it changes a number. Times are UTC, persons are codes; empty: not yet.
struct FiringRecord {
  Given<FiringState> state;
  std::string planned_for;
  std::string started, started_by;
  std::string ended, ended_by;
  std::string interrupted, interruption;  ///< when, and what happened
  std::string read_back;                  ///< what was read off the panel before the start, in words
  std::vector<NameUsed> used;
  std::optional<MeasuredFiring> measured;
  std::vector<PieceFired> results;
  std::vector<PhotoKept> photos;
  PlacesByKey places;
  Place place;
};

/// A person by code; name and whatever else tells who it is stand apart and can be erased.
struct Person {
  std::string name;  ///< the code
  std::string label;
  std::string note;
  Given<PersonRole> role;
  Given<bool> may_set_up;
  bool left = false;  ///< may do nothing any more
  Place place;
};

/// A document that may not be changed until it is unlocked.
struct Lock {
  std::string name;  ///< "program-dentine": kind and name of what it locks
  std::string label;
  std::string note;
  std::string of_kind;  ///< "program"
  std::string of_name;  ///< "dentine"
  int of_version = 0;   ///< when it was locked
  bool locked = true;
  std::string reason;
  PlacesByKey places;
  Place place;
};

/// The lab itself, as its store knows it: one a store. What is empty is left to the machine's settings.
struct Lab {
  std::string name;
  std::string label;  ///< what the lab is called
  std::string note;
  std::string language;  ///< "en", "de"; may be empty
  std::string units;     ///< "celsius", "fahrenheit"; may be empty
  bool demo = false;     ///< nothing in its store happened: it is there to play with
  std::vector<LabDue> dues;
  Place place;
};

}  // namespace heatwork::trade
