create table about (key text collate "C" not null primary key, value text collate "C" not null);
create table documents (kind text collate "C" not null, id text collate "C" not null, version bigint not null, body text collate "C" not null, typed text collate "C" not null, hash text collate "C" not null, primary key (kind, id, version));
create table heads (kind text collate "C" not null, id text collate "C" not null, version bigint not null, label text collate "C" not null, state text collate "C" not null, words text collate "C" not null, at_ms bigint not null, primary key (kind, id));
create index heads_by_state on heads (kind, state, id) where state <> '';
create table uses (kind text collate "C" not null, id text collate "C" not null, row bigint not null, at_ms bigint not null, piece text collate "C" not null, furnace text collate "C" not null, program text collate "C" not null, lot text collate "C" not null, primary key (kind, id, row));
create index uses_by_piece on uses (piece, at_ms, kind, id, row) where piece <> '';
create index uses_by_furnace on uses (furnace, at_ms, piece) where furnace <> '' and piece <> '';
create index pieces_by_furnace on uses (furnace, piece, at_ms) where furnace <> '' and piece <> '';
create index uses_by_program on uses (program, at_ms, piece) where program <> '' and piece <> '';
create index pieces_by_program on uses (program, piece, at_ms) where program <> '' and piece <> '';
create index uses_by_lot on uses (lot, at_ms, piece) where lot <> '' and piece <> '';
create index pieces_by_lot on uses (lot, piece, at_ms) where lot <> '' and piece <> '';
create table trail (sequence bigint not null primary key, at_utc text collate "C" not null, zone text collate "C" not null, person text collate "C" not null, known_by text collate "C" not null, action text collate "C" not null, kind text collate "C" not null, id text collate "C" not null, version bigint not null, document_hash text collate "C" not null, replaced_hash text collate "C" not null, reason text collate "C" not null, previous text collate "C" not null, hash text collate "C" not null);
create index trail_by_document on trail (kind, id, sequence);
create table personal (code text collate "C" not null primary key, salt text collate "C" not null, body text collate "C" not null);
create table photos (hash text collate "C" not null primary key, bytes_base64 text collate "C" not null);
create table dues (kind text collate "C" not null, id text collate "C" not null, row bigint not null, due_on text collate "C" not null, what text collate "C" not null, primary key (kind, id, row));
create index dues_by_day on dues (due_on, kind, id, row);
insert into about values ('format', '2 8837ffd827e606e938bdf79902652dafddaab8bc1a54f849f1e52d93e2165493');
insert into about values ('made_utc', '2026-11-25T17:11:04.123Z 45d09841926c9505f9f26c8acd2f4167ff312e657af74a2fae71b329294c9088');
insert into about values ('store_id', '39867869697201c21fa29b8d4939de6c 20576534a743efd4a85a3d4782f6cd8851932325fa38a10ab1b744bd5b875d35');
insert into documents values ('bench step', 'built-up-1', 1, 'format = 1

[bench_step]
name = "built-up-1"
label = "crown and bridge built up"
work = "build-up"
pieces = ["crown-16"]
lots = ["jar-31"]
at = "2026-11-25T16:40:00Z"
person = "mk"
', '', '6f8b3899356830447b7d6f95cfb1516955a7cb64e6ce381b213fc1a03f3fa094');
insert into documents values ('check', 'corner-wire-1', 1, 'format = 1

[check]
name = "corner-wire-1"
label = "silver wire in corner"
furnace = "corner"
of = "temperature"
good = true
error = "3 K"
method = "invented"
at = "2026-11-25T08:05:00Z"
person = "mk"
', '', '0cf2010e16b199e1667358d1baae0708775d4c0477c3f5af5509d386685fdc3d');
insert into documents values ('firing', 'firing', 1, 'format = 1

[firing]
name = "firing"
label = "crown and bridge in the corner"
note = "Invented for the demo lab. The maker''s own program, in the furnace that reads high."
stage = "dentine"
tray = "light"
furnace = "corner"
program = "dentine-on-zirconia"
instruction = "dentine-on-zirconia-sheet"

[[firing.piece]]
piece = "crown-16"
place = "between"

[[firing.piece]]
piece = "bridge-24-26"
place = "between"

[firing.chamber]
cold = false
since_last_firing = "13 min"
room = "23 °C"
room_humidity = "47 %"

[firing.record]
state = "planned"
planned_for = "2026-11-25T17:00:00Z"
', '', 'dc8fe3c95ef1b15d65991b10477afb8024ec4085ea793d25604459bbec5bf401');
insert into documents values ('firing', 'firing', 2, 'format = 1

[firing]
name = "firing"
label = "crown and bridge in the corner"
note = "Invented for the demo lab. The maker''s own program, in the furnace that reads high."
stage = "dentine"
tray = "light"
furnace = "corner"
program = "dentine-on-zirconia"
instruction = "dentine-on-zirconia-sheet"

[[firing.piece]]
piece = "crown-16"
place = "between"

[[firing.piece]]
piece = "bridge-24-26"
place = "between"

[firing.chamber]
cold = false
since_last_firing = "13 min"
room = "23 °C"
room_humidity = "47 %"

[firing.record]
state = "started"
started = "2026-11-25T17:11:04Z"
started_by = "mk"
', '', '1e7382638609979d452dc50e63f2e2d141c7c78ed8e8949cbd22347a147f52d9');
insert into documents values ('firing', 'firing', 3, 'format = 1

[firing]
name = "firing"
label = "crown and bridge in the corner"
note = "Invented for the demo lab. The maker''s own program, in the furnace that reads high."
stage = "dentine"
tray = "light"
furnace = "corner"
program = "dentine-on-zirconia"
instruction = "dentine-on-zirconia-sheet"

[[firing.piece]]
piece = "crown-16"
place = "between"

[[firing.piece]]
piece = "bridge-24-26"
place = "between"

[firing.chamber]
cold = false
since_last_firing = "13 min"
room = "23 °C"
room_humidity = "47 %"

[firing.record]
state = "ended"
started = "2026-11-25T17:11:04Z"
started_by = "mk"
ended = "2026-11-25T17:31:50Z"
ended_by = "mk"
', '', 'ddb7b06574ac7699fdba780e2308bd0f445405e992ef80f932506fe08c98c4c0');
insert into documents values ('furnace', 'corner', 1, 'format = 1

[furnace]
name = "corner"
label = "furnace in the corner"
note = "Invented for the demo lab: it reads 12 K high, its pump is slow and its heating tired."
chamber_volume = "0.59 L"
maximum = "1163 °C"
altitude = "187 m"
sensor_type = "K"
sensor_lag = "5.7 s"
correction_keyed = "0 K"
correction_convention = "added to display"

[furnace.display_error]
error = "12 K"
standard_uncertainty = "3 K"
checked = "silver wire, 2026-10-07"

[furnace.heating]
gain = "2.63 K/s"
loss = "0.00171 /s"
gain_when_new = "2.97 K/s"
loss_when_new = "0.00159 /s"
mains = "223 V"
nominal_mains = "230 V"
overshoot = "2.7 K"

[furnace.natural_cooling]
shut = "0.00083 /s"
half_open = "0.0021 /s"
open = "0.0053 /s"

[furnace.pump]
time_constant = "19 s"
time_constant_when_new = "8.7 s"
ultimate = "47 mbar"
ultimate_when_new = "36 mbar"
leak = "0.13 mbar/s"
release_time = "2.9 s"
gauge = "below ambient"

[furnace.ability]
temperature_step = "1 K"
rate_step = "1 K/min"
slowest_rate = "3 K/min"
fastest_rate = "97 K/min"
time_step = "5 s"
longest_hold = "31 min"
heating_stages = 2
cooling_stages = 2
vacuum_level_settable = true
waits_for_vacuum = false
hold_starts = "display reaches"
mains_cut = "stops"
', '', '83b0ef6a802e9aadf6036b5b2f68ca54090d9808054ed90657a814c03b4e7939');
insert into documents values ('instruction', 'dentine-on-zirconia-sheet', 1, 'format = 1

[instruction]
name = "dentine-on-zirconia-sheet"
label = "sheet for the first dentine firing on zirconia"
note = "Invented for the demo lab: stands for the maker''s sheet, and equals none."
material = "zirconia-veneer"
stage = "dentine"
edition = "demo 3"
date = "2026-03-17"
program = "dentine-on-zirconia"
tray = "light"

[instruction.limits]
entry_at_most = "463 °C"
drying_at_least = "4 min 35 s"
closing_at_least = "1 min 50 s"
rate_at_most = "61 K/min"
top_at_least = "807 °C"
top_at_most = "827 °C"
hold_at_least = "55 s"
hold_at_most = "2 min 35 s"
vacuum_from_at_most = "563 °C"
vacuum_level_at_most = "77 mbar"
opening_at_most = "523 °C"
', '', '4add1ffacee948e38e4a10d8c10343277b2c01c941dba79c488a771d64180752');
insert into documents values ('lot', 'jar-31', 1, 'format = 1

[lot]
name = "jar-31"
label = "dentine, second jar"
note = "Invented for the demo lab."
material = "zirconia-veneer"
code = "Q 31-7"
opened = "2026-11-02"
expires = "2027-08-31"
', '', '7c19a6bad8636b7e9832e1dbe76239fabd378c3f5eeccb0849f68cf12f1960b4');
insert into documents values ('piece', 'bridge-24-26', 1, 'format = 1

[piece]
name = "bridge-24-26"
label = "three-unit bridge on zirconia, dentine built up"
note = "Invented for the demo lab."
shape = "three-unit bridge"
teeth = [24, 25, 26]
support = "pins"

[[piece.section]]
name = "pontic"
form = "tube"
inner_radius = "0.1 mm"
inside = "closed"
area = "163 mm2"

[[piece.section.layer]]
material = "zirconia-3y"
thickness = "1.9 mm"

[[piece.section.layer]]
material = "zirconia-veneer"
thickness = "2.3 mm"
green = true
liquid = "water"

[[piece.section]]
name = "retainers"
form = "shell"
inner_radius = "3.4 mm"
inside = "mass"
inner_mass = { heat_capacity = "5300 J/(m2 K)", gap = "370 W/(m2 K)" }
area = "231 mm2"

[[piece.section.layer]]
material = "zirconia-3y"
thickness = "0.7 mm"

[[piece.section.layer]]
material = "zirconia-veneer"
thickness = "1.8 mm"
green = true
liquid = "water"

[[piece.section]]
name = "connectors"
form = "tube"
inner_radius = "0.1 mm"
inside = "closed"
area = "57 mm2"

[[piece.section.layer]]
material = "zirconia-3y"
thickness = "1.7 mm"

[[piece.section.layer]]
material = "zirconia-veneer"
thickness = "0.9 mm"
green = true
liquid = "water"
', '', '45c17d132ee39b11ca4f54e5c52ce5ba234578f7eae81e19dcb1a0a580d576aa');
insert into documents values ('piece', 'crown-16', 1, 'format = 1

[piece]
name = "crown-16"
label = "crown on zirconia, dentine built up"
note = "Invented for the demo lab."
shape = "crown"
teeth = [16]
support = "pins"

[[piece.section]]
name = "thickest"
form = "shell"
inner_radius = "3.3 mm"
inside = "mass"
inner_mass = { heat_capacity = "5300 J/(m2 K)", gap = "370 W/(m2 K)" }
area = "118 mm2"

[[piece.section.layer]]
material = "zirconia-3y"
thickness = "0.6 mm"

[[piece.section.layer]]
material = "zirconia-veneer"
thickness = "1.9 mm"
green = true
liquid = "water"

[[piece.section]]
name = "thinnest"
form = "shell"
inner_radius = "3.7 mm"
inside = "mass"
inner_mass = { heat_capacity = "5300 J/(m2 K)", gap = "370 W/(m2 K)" }
area = "104 mm2"

[[piece.section.layer]]
material = "zirconia-3y"
thickness = "0.5 mm"

[[piece.section.layer]]
material = "zirconia-veneer"
thickness = "1.1 mm"
green = true
liquid = "water"
', '', 'd83395ba82816871271b78c3685766511af3a45ffc473b7aab845ee34b29234f');
insert into documents values ('program', 'dentine-on-zirconia', 1, 'format = 1

[program]
name = "dentine-on-zirconia"
label = "first dentine firing on zirconia"
note = "Invented for the demo lab at odd numbers; no maker''s program."
standby = "397 °C"
entry = "431 °C"
drying_time = "5 min 20 s"
drying_opening = "70 %"
closing_time = "2 min 25 s"
preheat_hold = "25 s"
opening_temperature = "503 °C"
unloading_temperature = "281 °C"

[[program.heating]]
to = "817 °C"
rate = "47 K/min"
hold = "1 min 5 s"

[program.vacuum]
from = "443 °C"
to = "813 °C"
level = "57 mbar"
hold_under_vacuum = "0 s"

[[program.cooling]]
to = "503 °C"
opening = "25 %"
', '', '9467d3216571184608141314a76904c5436710a25d679d2e24434009ae20663c');
insert into documents values ('support', 'pins', 1, 'format = 1

[support]
name = "pins"
label = "two ceramic pins"
note = "Invented for the demo lab; the conductance of the contact is a guess."
mass = "1.9 g"
material = "alumina"
contact = "7.3 mm2"
gap = "230 W/(m2 K)"
', '', 'a11cf5f5957edf7b1a3a5b558f85e1c0846bb6c90f23b54ddeaede82691928d4');
insert into documents values ('tray', 'light', 1, 'format = 1

[tray]
name = "light"
label = "light fibre tray"
note = "Invented for the demo lab."
mass = "11.7 g"
material = "alumina-fibre"
diameter = "69 mm"
thickness = "7.8 mm"
', '', '80fffebeee0b62623aadb73773ae947d10eea7aa979d96ad277ffd4f9a40e33b');
insert into heads values ('bench step', 'built-up-1', 1, 'crown and bridge built up', '', 'built-up-1', 0);
insert into heads values ('check', 'corner-wire-1', 1, 'silver wire in corner', '', 'corner-wire-1', 0);
insert into heads values ('firing', 'firing', 3, 'crown and bridge in the corner', 'ended', 'firing', 0);
insert into heads values ('furnace', 'corner', 1, 'furnace in the corner', '', 'corner', 0);
insert into heads values ('instruction', 'dentine-on-zirconia-sheet', 1, 'sheet for the first dentine firing on zirconia', '', 'dentine-on-zirconia-sheet', 0);
insert into heads values ('lot', 'jar-31', 1, 'dentine, second jar', '', 'jar-31', 0);
insert into heads values ('piece', 'bridge-24-26', 1, 'three-unit bridge on zirconia, dentine built up', '', 'bridge-24-26', 0);
insert into heads values ('piece', 'crown-16', 1, 'crown on zirconia, dentine built up', '', 'crown-16', 0);
insert into heads values ('program', 'dentine-on-zirconia', 1, 'first dentine firing on zirconia', '', 'dentine-on-zirconia', 0);
insert into heads values ('support', 'pins', 1, 'two ceramic pins', '', 'pins', 0);
insert into heads values ('tray', 'light', 1, 'light fibre tray', '', 'light', 0);
insert into uses values ('bench step', 'built-up-1', 1, 1764090664123, 'crown-16', '', '', 'jar-31');
insert into uses values ('firing', 'firing', 1, 1764090664123, 'crown-16', 'corner', 'dentine-on-zirconia@1', '');
insert into uses values ('firing', 'firing', 2, 1764090664123, 'bridge-24-26', 'corner', 'dentine-on-zirconia@1', '');
insert into dues values ('lot', 'jar-31', 1, '2027-08-31', 'expires');
insert into trail values (1, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'store made', 'store', '39867869697201c21fa29b8d4939de6c', 2, '', '', '', '0000000000000000000000000000000000000000000000000000000000000000', 'aaeb47d0b5214f9ca0c83b42d14201fec64f8cfc8d6a18fb5f72dab9197cfb30');
insert into trail values (2, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'added', 'furnace', 'corner', 1, '83b0ef6a802e9aadf6036b5b2f68ca54090d9808054ed90657a814c03b4e7939', '', '', 'aaeb47d0b5214f9ca0c83b42d14201fec64f8cfc8d6a18fb5f72dab9197cfb30', '8050e15b6383fe1adb03a1930cb3275d4577db2f45158a479ae794923640a00c');
insert into trail values (3, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'added', 'program', 'dentine-on-zirconia', 1, '9467d3216571184608141314a76904c5436710a25d679d2e24434009ae20663c', '', '', '8050e15b6383fe1adb03a1930cb3275d4577db2f45158a479ae794923640a00c', 'fe92f0bbe4a8ca0ba3ba655f141c18bc8178ff6ff048367c88958b41bc189f21');
insert into trail values (4, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'added', 'instruction', 'dentine-on-zirconia-sheet', 1, '4add1ffacee948e38e4a10d8c10343277b2c01c941dba79c488a771d64180752', '', '', 'fe92f0bbe4a8ca0ba3ba655f141c18bc8178ff6ff048367c88958b41bc189f21', '450e69a86d511eb2d1e0eb64e39b3db7fd27efa8d29596fd198ea913ca7a98b4');
insert into trail values (5, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'added', 'tray', 'light', 1, '80fffebeee0b62623aadb73773ae947d10eea7aa979d96ad277ffd4f9a40e33b', '', '', '450e69a86d511eb2d1e0eb64e39b3db7fd27efa8d29596fd198ea913ca7a98b4', '9a3ddabd99fc29ed27d23b2aa231f8ecc1dbbbcfbd758564e7117199cb835525');
insert into trail values (6, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'added', 'support', 'pins', 1, 'a11cf5f5957edf7b1a3a5b558f85e1c0846bb6c90f23b54ddeaede82691928d4', '', '', '9a3ddabd99fc29ed27d23b2aa231f8ecc1dbbbcfbd758564e7117199cb835525', 'f94f641a9f341e7db954b9f227a08948b06a75c8273a7b04f5a4a2ff92a4bd3e');
insert into trail values (7, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'added', 'piece', 'crown-16', 1, 'd83395ba82816871271b78c3685766511af3a45ffc473b7aab845ee34b29234f', '', '', 'f94f641a9f341e7db954b9f227a08948b06a75c8273a7b04f5a4a2ff92a4bd3e', '22291daa9b6acb3c4d22d6d105a7b933254f07b7d92682ecf6454fa601cf462a');
insert into trail values (8, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'added', 'piece', 'bridge-24-26', 1, '45c17d132ee39b11ca4f54e5c52ce5ba234578f7eae81e19dcb1a0a580d576aa', '', '', '22291daa9b6acb3c4d22d6d105a7b933254f07b7d92682ecf6454fa601cf462a', '3e9f37e4f621da4208b4e5c8d48ec3f71d9ed9ff363a090870fa6d5b8a523391');
insert into trail values (9, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'added', 'lot', 'jar-31', 1, '7c19a6bad8636b7e9832e1dbe76239fabd378c3f5eeccb0849f68cf12f1960b4', '', '', '3e9f37e4f621da4208b4e5c8d48ec3f71d9ed9ff363a090870fa6d5b8a523391', 'bfd684aca49dd7aba08d9a49e427a1bf2aa809bbb3004e6abbca5e190292420a');
insert into trail values (10, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'recorded', 'bench step', 'built-up-1', 1, '6f8b3899356830447b7d6f95cfb1516955a7cb64e6ce381b213fc1a03f3fa094', '', '', 'bfd684aca49dd7aba08d9a49e427a1bf2aa809bbb3004e6abbca5e190292420a', 'd4b5e98933fb0403a8c2c4148696d32883104938a44970ac83399b07a9559a0d');
insert into trail values (11, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'planned', 'firing', 'firing', 1, 'dc8fe3c95ef1b15d65991b10477afb8024ec4085ea793d25604459bbec5bf401', '', '', 'd4b5e98933fb0403a8c2c4148696d32883104938a44970ac83399b07a9559a0d', '15256e7154f52d4b25db5143379c613d18d9ba46f0bc2da232e1d49284355df4');
insert into trail values (12, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'started', 'firing', 'firing', 2, '1e7382638609979d452dc50e63f2e2d141c7c78ed8e8949cbd22347a147f52d9', 'dc8fe3c95ef1b15d65991b10477afb8024ec4085ea793d25604459bbec5bf401', '', '15256e7154f52d4b25db5143379c613d18d9ba46f0bc2da232e1d49284355df4', '83f4bf8d1d6b299162e1a426186d94f601aceeea51a49f4732484f307920bf44');
insert into trail values (13, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'ended', 'firing', 'firing', 3, 'ddb7b06574ac7699fdba780e2308bd0f445405e992ef80f932506fe08c98c4c0', '1e7382638609979d452dc50e63f2e2d141c7c78ed8e8949cbd22347a147f52d9', 'came out as wanted', '83f4bf8d1d6b299162e1a426186d94f601aceeea51a49f4732484f307920bf44', '0feea12599ba23ce03ecdb57ebf810b4e08e92abdf714ef11b14bf6a3bf8c11a');
insert into trail values (14, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'recorded', 'check', 'corner-wire-1', 1, '0cf2010e16b199e1667358d1baae0708775d4c0477c3f5af5509d386685fdc3d', '', '', '0feea12599ba23ce03ecdb57ebf810b4e08e92abdf714ef11b14bf6a3bf8c11a', 'bf64a3e4d031b750642e3ab9a7252723a2e3003f621a018db32d9b9420a23063');
insert into trail values (15, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'personal data kept', 'personal data', 'mk', 0, '272265f038cb088e999f7ddd820580c6af74a8c67e35c75097b4a191c5c6cbf9', '', 'joined the lab', 'bf64a3e4d031b750642e3ab9a7252723a2e3003f621a018db32d9b9420a23063', 'c5830a637ad2515db69f853263e4ecf7a1ec3a7934b22c45359baa3721ad0036');
insert into trail values (16, '2026-11-25T17:11:04.123Z', 'Europe/Berlin', 'mk', 'named', 'photo kept', 'photo', '9d5d23998ef0cbb90d64b944631777bbb4d69769b698bc7c247d1746f04f50cc', 0, '9d5d23998ef0cbb90d64b944631777bbb4d69769b698bc7c247d1746f04f50cc', '', 'of crown-16', 'c5830a637ad2515db69f853263e4ecf7a1ec3a7934b22c45359baa3721ad0036', '8f6b71949ce0cb0ad3eadc6a01857364570d799dd40fa1240bd4b4a477b0adba');
insert into personal values ('mk', 'eeb71e86b8897573e8b6032fadc52c34eb400e9ce5a3f1f56e00438619f07c12', 'name = "Made Up"
');
insert into photos values ('9d5d23998ef0cbb90d64b944631777bbb4d69769b698bc7c247d1746f04f50cc', 'iVBORyBpbnZlbnRlZA==');
