namespace Athwart.Jobs.Explain;

/// <summary>What findings mean, how they are heard and how they are avoided next time. Common practice, no source.</summary>
public static class Explanations
{
    /// <summary>The explanations by kind, in the order of docs/findings.md.</summary>
    public static IReadOnlyList<Explanation> All { get; } =
    [
        new(
            "header-not-finished",
            "The recorder writes the sizes of a file when it stops. It never came to that: power, a card pulled out, a crash. The samples are there up to where the power went.",
            "Nothing, as a rule; the last second may be missing or end in a click.",
            "Stop the recorder before the battery does, and wait for its light before the card comes out."),
        new(
            "cut-short",
            "The header promises more samples than the file holds, so a part of the recording is not here.",
            "The sound stops in the middle.",
            "Copy cards with a program that reads back what it wrote; look for a longer file of the same name on the card."),
        new(
            "chunk-cut-short",
            "A chunk of metadata goes on past the end of the file.",
            "Nothing: the samples are not concerned.",
            "Copy the card again; the copy was broken off."),
        new(
            "partial-frame",
            "The samples end within a frame, so one channel has a sample more than the other. The part of a frame is left out.",
            "Nothing.",
            "It is what a power cut leaves; nothing more is to be done."),
        new(
            "odd-padding",
            "A chunk of odd size ought to be followed by a byte of padding, and is not. It is read as meant.",
            "Nothing.",
            "The program that wrote it should be told; the sound is whole."),
        new(
            "trailing-bytes",
            "Behind the last chunk there are bytes that belong to none. They may be nothing, or sound that the header does not know of.",
            "Nothing, unless the take is shorter than what was recorded.",
            "Compare the length with what you recorded; 'salvage' takes in what is sound."),
        new(
            "second-data-chunk",
            "The file holds more than one chunk of samples. The first is read.",
            "The end of the take may be missing.",
            "Listen to the end; some recorders begin a new chunk after a pause."),
        new(
            "size-wrapped",
            "The file is larger than 4 GiB and its header has only 32 bits for the size, so the size began at zero again.",
            "Nothing here, as it is read by its real length; other programs may stop early.",
            "Let the recorder cut files at 2 or 4 GiB, or write RF64; 'salvage' makes a copy with right sizes."),
        new(
            "rf64-without-ds64",
            "An RF64 or BW64 file keeps its sizes in a chunk of its own, and that chunk is missing. It is read to its end.",
            "Nothing.",
            "'salvage' makes a copy with right sizes."),
        new(
            "bext-unreadable",
            "The chunk with description, date and time reference breaks its own rules and was left out.",
            "Nothing.",
            "Enter by hand what it said; look whether the recorder has newer firmware."),
        new(
            "ixml-unreadable",
            "The chunk of XML with project, scene, take and track names cannot be read and was left out.",
            "Nothing.",
            "Enter by hand what it said; say with 'roles' which channel is which."),
        new(
            "metadata-too-large",
            "A chunk of metadata is larger than what is read of it.",
            "Nothing.",
            "Look whether the metadata is complete; the samples are."),
        new(
            "not-joined",
            "Two files look as if they belonged together, as a mono pair or as the parts of a split take, but the evidence is not enough to join them unseen.",
            "One alone is a mid without its side, or half a take.",
            "Give both the same length and time reference, or the same family in iXML; or pass both to the command."),
        new(
            "header-disagrees",
            "Fields of the header contradict each other; the size of the word decided.",
            "If it decided wrongly: noise from the first second.",
            "Listen to the first seconds."),
        new(
            "full-scale-runs",
            "Several samples in a row sit at full scale: the wave went higher than the word can say, and was cut.",
            "A rasp or crackle on the loudest moments, duller than it was.",
            "Leave more headroom on this input: loud, near sounds peak 12 to 20 dB above their level."),
        new(
            "flat-tops",
            "The wave is cut flat below full scale: something before the converter overloaded, a capsule, a preamplifier or a limiter.",
            "The same rasp as clipping, though the meter never reached the top.",
            "Lower the gain before the stage that overloads, or use a pad; turning down afterwards does not help."),
        new(
            "float-overs",
            "Floating-point samples go beyond full scale. Nothing is lost in the file.",
            "Nothing, until it is written as integers or played: then it clips.",
            "Deliver with the trim that is named, or in floating point."),
        new(
            "decoded-overload",
            "Mid and side are sound, but their sum or difference goes beyond full scale.",
            "Clipping in left or right, none in the mono.",
            "Deliver with '--ceiling -1', or at a lower side level."),
        new(
            "width-not-reached",
            "A treatment asks for a width in degrees or as a correlation that this mid microphone cannot give at any side level.",
            "Nothing is wrong with the sound; it is as near to the wanted width as it can be.",
            "Ask for a width the rig gives ('athwart rig show' lists them), or say a side level."),
        new(
            "not-finite",
            "Samples that are no numbers: infinite, or the mark for 'not a number'.",
            "A click, or silence from there on in some programs.",
            "Copy the card again; if they are in the original, cut around them."),
        new(
            "dc-offset",
            "The wave does not swing around zero but around a constant.",
            "Nothing while it plays; a thump where a cut begins or ends.",
            "Use a low cut when shaping, and fades at cuts; have the recorder's input looked at if it is always there."),
        new(
            "digital-silence",
            "Samples that are exactly zero. No microphone is that quiet.",
            "A hole in the sound, or nothing at the very beginning and end.",
            "Inside the take: look for a cable, a muted input, a slow card. At the ends: trim it."),
        new(
            "silent-take",
            "Nothing was recorded, or next to nothing.",
            "Nothing.",
            "Look at cables, phantom power, armed inputs and gains before each take; look at the meter."),
        new(
            "low-bandwidth",
            "The spectrum ends at once, far below half the sample rate: the sound was lossy or came from a lower rate before.",
            "Dull, with a metallic edge if it was lossy.",
            "Look for the original; set the recorder to the rate you mean."),
        new(
            "noisy-take",
            "Even the loudest moment is quiet and near the noise: raised to a usual level, the noise comes with it.",
            "Hiss under everything.",
            "Go nearer, raise the gain, or take a quieter microphone; 'rig show' says which part makes the noise."),
        new(
            "dead-channel",
            "One channel holds nothing while the other holds sound.",
            "With a dead side: plain mono. With a dead mid: a hollow, phasy sound.",
            "Check cable, phantom power and input of that microphone; listen to each channel alone before the take."),
        new(
            "identical-channels",
            "Both channels hold the same samples: there is no side.",
            "Plain mono; if one is inverted, one side only at a side level of 0 dB.",
            "Look for a recorder set to dual mono, or one microphone routed to both inputs."),
        new(
            "scaled-copy",
            "The side is the mid at another level: there is no side.",
            "An image that leans to one side and has no width.",
            "Look for one microphone on both inputs, or for crosstalk in a cable."),
        new(
            "side-weak",
            "The side is far below the mid. That is right for a single sound straight ahead, and wrong for anything wide.",
            "Nearly mono.",
            "Set the two gains so that a sound at the side is alike in both; 'rig show' says by how much they must differ."),
        new(
            "side-strong",
            "The side is far above the mid: the sound came from the side, or the channels are swapped.",
            "A wide, hollow sound whose middle is missing; little is left in mono.",
            "Point the mid at the sound; record a line-up and check which input is which."),
        new(
            "side-noise",
            "In the quiet moments the side is noisier than the mid, at the side level it is decoded at.",
            "Hiss that is wide instead of in the middle.",
            "A quieter figure-8, more gain before the recorder, or a modest side level."),
        new(
            "low-correlation",
            "For a moment left and right move against each other.",
            "Phasy, outside the loudspeakers; it sinks in mono.",
            "Listen there; a lower side level brings it back. The mono fold stays the mid."),
        new(
            "out-of-phase",
            "Over the whole take the side outweighs the mid in the decode.",
            "Hollow, without a middle; weak in mono.",
            "Lower the side level, or find out whether mid and side are swapped."),
        new(
            "recorded-decode",
            "Other channels or another file hold the recorder's own decode of this pair; its side level was measured.",
            "Nothing is wrong.",
            "Decode the raw pair; keep the other for comparison."),
        new(
            "is-recorded-decode",
            "This take is the recorder's own decode of another one, and no raw pair.",
            "Decoded once more, it is wrong.",
            "Leave it out, and decode the raw pair."),
        new(
            "not-a-decode",
            "Channels named left and right are not the decode of this mid and side.",
            "Another sound than the decode.",
            "They may come from other microphones; name the tracks as they are."),
        new(
            "one-channel",
            "The take has one channel, so there is nothing to decode.",
            "Mono.",
            "If another file holds the side, give both the same stem, length and time reference, or pass both to the command."),
        new(
            "says-left-right",
            "The file names its channels left and right, so it may be decoded already.",
            "Decoded twice: a strange, lopsided sound.",
            "Listen; if it is mid and side all the same, say so with 'roles'."),
        new(
            "differs-from-session",
            "Nearly all takes checked together agree in rate, word, roles or polarity, and this one does not.",
            "Perhaps nothing; perhaps left and right the other way round than in the rest.",
            "Check that it was meant so."),
        new(
            "side-unlike-session",
            "The side stands in another proportion to the mid than in the other takes.",
            "Wider or narrower than its siblings.",
            "Leave the gains alone between line-up and last take; look at the cable of the side."),
        new(
            "side-unlike-profile",
            "The side stands in another proportion to the mid than the line-up of the rig leads to expect, in the quiet as well as in the loud.",
            "Wider or narrower than the rig should be.",
            "Leave the gains alone after the line-up, or make another one; look at the cable and the battery of the side."),
        new(
            "level-unlike-session",
            "The quiet of the take lies far from the quiet of the others: another gain, or another place.",
            "Nothing in the take by itself; it does not fit beside the others.",
            "Turn both gains alike, and say it at the head of the take."),
        new(
            "roles-swapped",
            "What was taken for the mid is the side, and the other way round.",
            "Hollow and wide with nothing in the middle; in mono only what came from the sides.",
            "Put the mid into input 1 and mark the cables; record a line-up, which tells."),
        new(
            "side-inverted",
            "The side's positive lobe points right, or its polarity is turned somewhere: left and right are exchanged.",
            "What was left is heard right.",
            "Mark the side's front; a voice on the left must be heard left. 'roles --invert-side' turns it over."),
        new(
            "already-decoded",
            "The channels are left and right, not mid and side: the recorder, or somebody, has decoded them.",
            "Decoded once more: lopsided, and the mono is one side only.",
            "Switch the recorder to write the raw pair; take left and right as they are."),
        new(
            "side-not-square",
            "The side hears too much of what is straight ahead, so it is not turned by 90 degrees.",
            "The image leans: the middle is pulled to one side.",
            "Turn the side until a voice in front all but vanishes in it."),
        new(
            "side-not-figure-eight",
            "What is used as side does not hear left and right alike with opposite polarity.",
            "No real left and right; the image collapses or leans.",
            "Switch the microphone to figure-8, or use another."),
        new(
            "mid-backwards",
            "The rear is louder in the mid than the front: it points backwards.",
            "Dull, distant, with the recordist in front.",
            "Point the mid at the sound; side-address microphones have their front on their face."),
        new(
            "mid-pattern-disagrees",
            "The mid hears front, sides and rear in other proportions than the pattern that was given.",
            "Another coverage than planned.",
            "Check the pattern switch, or let the line-up solve the pattern."),
        new(
            "sides-unequal",
            "Left and right are not alike in the line-up: the claps, the distances or the place differ.",
            "Nothing by itself; the measured gain is less sure.",
            "Clap from the same distance on both sides, away from walls."),
        new(
            "sounds-disagree",
            "Claps from one direction do not agree with each other.",
            "Nothing by itself; the measurement is less sure.",
            "Stand still, clap alike, keep out of the wind."),
        new(
            "side-late",
            "The side comes later than the mid, or earlier, by more than the place of its capsule explains.",
            "A blurred image; colouration that changes with direction.",
            "Put the capsules above each other; look for a delay in the recorder's inputs or a wireless link."),
        new(
            "cannot-tell",
            "What was recorded is not enough to measure this: too quiet, too much noise or reflection, a direction missing.",
            "Nothing.",
            "Record the line-up again in a quiet, open place: three claps from each direction, then silence."),
        new(
            "click",
            "A spike of one or a few samples that no microphone makes: digital interference, a bad clock, static.",
            "A tick.",
            "Look at connectors and at what else hangs on the power; short ones can be repaired from their surroundings."),
        new(
            "dropout",
            "A run of samples that are zero or stand still in the midst of sound.",
            "A tick, or a short hole.",
            "Use a faster card; look at plugs and phantom power."),
        new(
            "repeated-block",
            "A block of samples stands twice, one right behind the other: a buffer was written twice.",
            "A stutter.",
            "Use a faster card or a larger buffer; cut around it."),
        new(
            "missing-block",
            "The wave jumps in both channels at once as if a block had been left out.",
            "A tick, and time that is short.",
            "Use a faster card; leave other work to other machines; cut around it."),
        new(
            "discontinuity",
            "The wave jumps from one sample to the next as no sound can.",
            "A tick.",
            "Look at plugs and at edits made before; a cross-fade hides it."),
        new(
            "level-jump",
            "One channel is suddenly louder or softer, noise and all: a gain was turned or a plug moved.",
            "The image jumps to one side.",
            "Leave the gains alone during a take; tape the knobs."),
        new(
            "hum",
            "A tone of the mains and its overtones, at 50 or 60 Hz, that came in by cable, by induction, or is in the place.",
            "A low buzz.",
            "Use balanced cables, keep away from transformers and dimmers, run the recorder from batteries."),
        new(
            "wind",
            "Air moving over the capsules: low rumbling bursts that the two do not share. Figure-8s suffer most.",
            "Thumping and rumbling, worse in the stereo than in the mono.",
            "Use fur over a cage with air inside, stand lower, turn the back to the wind."),
        new(
            "handling",
            "Knocks and rubs that travel through stand, boom or cable.",
            "Thumps.",
            "Use an elastic mount, hang the cable in a loop, and stand still."),
        new(
            "rumble",
            "A steady low sound that both microphones share: traffic, machines, the ground.",
            "A low growl.",
            "Find another place or time; a low cut takes what is below the subject."),
        new(
            "side-delay",
            "Over the whole take the side lags or leads the mid by the same time.",
            "A blurred image and colouration in left and right; the mono is not concerned.",
            "Put the capsules above each other; the delay that is named takes it out."),
        new(
            "side-low-end",
            "The side has nothing below a frequency where the mid still has.",
            "The lows sit in the middle, however wide the rest is.",
            "It is the nature of many figure-8s; nothing is wrong with the take."),
        new(
            "tone",
            "A narrow steady line: a converter, a monitor, a lamp, a motor.",
            "A whistle or whine.",
            "Find it with the headphones before the take; a narrow cut takes it out."),
        new(
            "sweeping-tone",
            "A narrow line that moves evenly in frequency: a converter that drifts, a motor that runs up, a pager or a test signal.",
            "A thin whistle that rises or falls.",
            "Find it with the headphones before the take; no narrow cut follows it."),
        new(
            "ultrasonic-tone",
            "A line above hearing, often of switched power supplies or of beacons.",
            "Nothing, until the take is slowed down: then a whistle.",
            "Keep away from lamps and chargers when recording for slowing down."),
        new(
            "mono-loss",
            "In some bands the decode loses much of its power where only one loudspeaker plays.",
            "Thinner in mono.",
            "A lower side level; the mono file is the mid and loses nothing of it."),
        new(
            "voice-slate",
            "Somebody says at the beginning what comes: the announced head of the take.",
            "A voice in the middle, then a pause, then the sound.",
            "Go on saying it, it is worth more than any file name; leave two seconds of silence after it, and cut behind it."),
        new(
            "long-quiet",
            "For long nothing stands out of the noise.",
            "Waiting.",
            "Cut it away; say at the head of a take what comes."),
        new(
            "early-end",
            "The take ends while the sound still stands far above the noise.",
            "Cut off.",
            "Count five seconds after the last sound before stopping."),
    ];

    /// <summary>The explanation of a kind; letter case makes no difference. Null when there is none.</summary>
    public static Explanation? Of(string kind) => All.FirstOrDefault(e => e.Kind.Equals(kind, StringComparison.OrdinalIgnoreCase));
}
