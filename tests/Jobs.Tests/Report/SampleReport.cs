using Athwart.Jobs.Deliver.Report;
using Athwart.Metering.Portrait;
using Athwart.Quantities;

namespace Athwart.Jobs.Tests.Report;

/// <summary>A delivery of six effects as a recordist might hand it over; levels are invented, pictures are of the invented sounds.</summary>
internal static class SampleReport
{
    private static readonly Lazy<ReportDocument> Made = new(Make);

    public static ReportDocument Document => Made.Value;

    private static ReportDocument Make() => new()
    {
        Title = "Aldermere Lock: gates, water and the lift bridge",
        Date = new(2026, 11, 21),
        Recordist = "Rowan Aske",
        Library = "Waterways",
        Sessions = ["2026-11-14 Aldermere, morning", "2026-11-15 Lift bridge"],
        Introduction = "Six effects from two mornings at the lock, recorded with one mid/side pair. Every stereo file folds to a clean mono, and the untouched pair is beside it should you want them narrower or wider.",
        Cautions = ["“Night ambience at the basin” is wider than the loudspeakers: in mono it is mostly air."],
        Effects = [Sluice(), Steps(), Motor(), Gate(), Boat(), Ambience()],
        Program = "Written by Athwart 0.1.0",
    };

    private static ReportEffect Sluice() => Effect("Sluice rush, opening", CanalLockSounds.SluiceRush(), 8, 96000, -3) with
    {
        Description = "Both paddles are drawn; water breaks into the empty chamber, swells over four seconds and holds.",
        Keywords = ["water", "rush", "sluice", "chamber"],
        Loudness = Levels(-19.4, -15.2, -16.8, 5.8, -1.0, -1.3),
        Trim = new(-1.6),
        TrimReason = "peak to −1 dBTP",
        Mono = new() { FoldChange = new(-1.9), Correlation = 0.46, WorstCorrelation = 0.31, WorstAtSeconds = 6.21 },
        Findings =
        [
            At("flat-tops", FindingSeverity.Fault, 5.20, 5.46, 96000, ChannelRole.Mid, "Three flat tops of 4 to 7 frames just below full scale: the converter or the input clipped.", "Cut before 5.2 s, or take the second pass."),
            At("low-rumble", FindingSeverity.Caution, 4.9, 7.6, 96000, ChannelRole.Side, "Energy below 40 Hz is within 9 dB of the rest: handling or wind on the stand.", "Listen on full-range loudspeakers; a 40 Hz high-pass on the side is enough."),
            At("side-late", FindingSeverity.Note, 0, 0.6, 96000, null, "The take starts with the paddle gear alone.", ""),
        ],
    };

    private static ReportEffect Steps() => Effect("Footsteps on the towpath, left to right", CanalLockSounds.Footsteps(), 9.3, 48000, 0) with
    {
        Description = "One person in boots on gravel, passing close.",
        Keywords = ["footsteps", "gravel", "boots"],
        Loudness = Levels(-27.9, -20.6, -25.1, 4.2, -4.4, -4.6),
        Mono = new() { FoldChange = new(-1.1), Correlation = 0.58, WorstCorrelation = 0.05, WorstAtSeconds = 0.2 },
    };

    private static ReportEffect Motor() => Effect("Lift bridge motor, up", CanalLockSounds.BridgeMotor(), 13.5, 48000, -6) with
    {
        Description = "The electric winch runs up, holds while the deck rises, and stops against its brake.",
        Keywords = ["motor", "winch", "bridge"],
        Loudness = Levels(-21.3, -18.7, -19.4, 3.1, -6.2, -6.2),
        Mono = new() { FoldChange = new(-0.6), Correlation = 0.88, WorstCorrelation = 0.71, WorstAtSeconds = 11.4 },
        Findings = [At("mains-hum", FindingSeverity.Note, 0, 13.5, 48000, ChannelRole.Mid, "A steady 50 Hz tone, 31 dB below the motor.", "")],
    };

    private static ReportEffect Gate() => Effect("Upper gate, creak", CanalLockSounds.GateCreak(), 4.4, 96000, -3) with
    {
        Description = "Oak on iron as the balance beam is leaned on. Overtones reach well beyond hearing: slow it down.",
        Keywords = ["gate", "wood", "creak", "slow-down"],
        Loudness = Levels(-23.0, -17.9, -20.7, 7.7, -2.8, -3.0),
        Mono = new() { FoldChange = new(-0.4), Correlation = 0.93, WorstCorrelation = 0.79, WorstAtSeconds = 1.5 },
    };

    private static ReportEffect Boat() => Effect("Narrow boat pass-by", CanalLockSounds.BoatPassBy(), 54, 48000, -1.5) with
    {
        Description = "A single-cylinder boat comes from the left, passes at four metres and leaves to the right; wash along the bank afterwards.",
        Keywords = ["boat", "engine", "pass-by"],
        Loudness = Levels(-26.2, -19.9, -21.0, 11.6, -5.1, -5.3),
        Mono = new() { FoldChange = new(-2.4), Correlation = 0.39, WorstCorrelation = -0.12, WorstAtSeconds = 48.6 },
        Findings =
        [
            At("mono-risk", FindingSeverity.Caution, 46.2, 51.8, 48000, null, "Correlation of left and right falls to −0.12: the wash is mostly in the side.", "Deliver at −4.5 dB, or keep as it is where mono does not matter."),
            At("voice", FindingSeverity.Caution, 49.0, 50.1, 48000, ChannelRole.Mid, "A voice, 22 dB below the boat.", "Ask before publishing."),
        ],
    };

    private static ReportEffect Ambience() => Effect("Night ambience at the basin", CanalLockSounds.NightAmbience(), 126, 32000, 3) with
    {
        Description = "Air over still water, a bell across the town, no traffic.",
        Keywords = ["ambience", "night", "water", "bell"],
        Word = "32-bit float",
        Loudness = Levels(-47.8, -41.9, -44.0, 8.3, -31.7, -31.9),
        Mono = new() { FoldChange = new(-6.8), Correlation = -0.31, WorstCorrelation = -0.74, WorstAtSeconds = 68.4 },
        Findings = [At("quiet", FindingSeverity.Note, 0, 126, 32000, null, "The noise floor of the microphones is 14 dB below the air.", "")],
    };

    private static ReportLoudness Levels(double integrated, double momentary, double shortTerm, double range, double truePeak, double samplePeak) => new()
    {
        Integrated = new(integrated),
        MaxMomentary = new(momentary),
        MaxShortTerm = new(shortTerm),
        Range = new(range),
        TruePeak = new(truePeak),
        SamplePeak = new(samplePeak),
    };

    private static Finding At(string kind, FindingSeverity severity, double from, double to, int rate, ChannelRole? role, string message, string remedy) => new()
    {
        Kind = kind,
        Severity = severity,
        Message = message,
        Remedy = remedy,
        Role = role,
        Range = FrameRange.FromFrames(CutStart(rate) + (long)(from * rate), CutStart(rate) + (long)(to * rate)),
    };

    private static long CutStart(int rate) => 41L * rate;

    private static ReportEffect Effect(string name, CanalLockSounds.Voice voice, double seconds, int rate, double sideLevel)
    {
        var (mid, side) = new CanalLockSounds(rate, (uint)name.Length).Play(seconds, voice);
        var meter = new PortraitMeter(mid.Length, rate, 600, new Decibels(sideLevel).AmplitudeRatio);
        meter.Add(mid, side);
        var stem = name.Replace(",", "").Replace(' ', '_');
        return new()
        {
            Name = name,
            Length = new(mid.Length),
            SampleRateHertz = rate,
            Word = "24-bit",
            SideLevel = new(sideLevel),
            AuditionFile = $"stereo/{stem}.wav",
            Files =
            [
                new("Stereo", $"stereo/{stem}.wav", "3f9a1c77d2b04e5588c1a90b6e7d4f2233aa901b7c6d5e4f3f9a1c77d2b04e55", "24-bit"),
                new("Mid/side pair", $"pairs/{stem}_MS.wav", "a41be09c55d17f3381d2c3b4a5968778695a4b3c2d1e0f00a41be09c55d17f33", "as recorded"),
                new("Recipe", $"recipes/{stem}.json", "07cc5e2190ab34df5561728394a5b6c7d8e9fa0b1c2d3e4f07cc5e2190ab34df"),
            ],
            Portrait = meter.Complete(),
            Source = new("ALDERMERE-T014", ["ALDERMERE-T014_1.WAV", "ALDERMERE-T014_2.WAV"], FrameRange.FromFrames(CutStart(rate), CutStart(rate) + mid.Length), rate, "2026-11-14 06:52:10"),
        };
    }
}
