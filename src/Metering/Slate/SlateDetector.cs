using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Slate;

/// <summary>The announced head of a take: a voice at its beginning that falls silent before the sound begins.</summary>
internal static class SlateDetector
{
    /// <summary>A head begins within so many seconds, and is no longer than so many; common practice, no source.</summary>
    private const double LatestStart = 12, Longest = 20, Shortest = 0.7, Silence = 2, AfterSeconds = 0.25;

    public static Finding? Find(TakeMeasures m)
    {
        if (m.Slate is not { } head)
            return null;
        var spoken = SpeechFinder.Find(head);
        if (spoken.Count == 0)
            return null;
        var first = spoken[0];
        var (from, to) = (first.From * head.StepSeconds, first.To * head.StepSeconds);
        var heard = head.Frames.Count * head.StepSeconds;
        // Who goes on speaking is the subject, no head; and a voice at the end of what was heard may go on.
        var goesOn = spoken.Count > 1 && spoken[1].From * head.StepSeconds < to + Silence;
        if (from > LatestStart || to - from is > Longest or < Shortest || goesOn || to > heard - Silence || spoken.Sum(s => s.To - s.From) * head.StepSeconds > 0.5 * heard)
            return null;
        return Slate(first, from, to, m);
    }

    private static Finding Slate(SpokenStretch spoken, double from, double to, TakeMeasures m)
    {
        var rate = m.SampleRateHertz;
        var cut = Math.Min((double)m.FrameCount.Value / rate, to + AfterSeconds);
        return new()
        {
            Kind = FindingKinds.VoiceSlate,
            Severity = FindingSeverity.Note,
            Role = ChannelRole.Mid,
            Range = FrameRange.FromFrames((long)(from * rate), Math.Min(m.FrameCount.Value, (long)(to * rate))),
            Size = to - from,
            SizeUnit = "s",
            Confidence = Math.Clamp(0.5 + (0.4 * (spoken.VoicedShare - 0.4)) + (spoken.SideBelowMidDecibels > 6 ? 0.15 : 0), 0.5, 0.9),
            Message = Text($"Somebody speaks at the beginning, from {from:0.0} to {to:0.0} s, in the middle of the image: {spoken.SyllablesASecond:0.0} syllables a second at a pitch of about {spoken.PitchHertz:0} Hz. It seems to be the spoken name of the take."),
            Remedy = Text($"Cut from {cut:0.0} s on; the words stay in the original."),
            Evidence =
            [
                new("syllables a second", spoken.SyllablesASecond, ""),
                new("pitch", spoken.PitchHertz, "Hz"),
                new("voiced", 100 * spoken.VoicedShare, "%"),
                new("side below mid", spoken.SideBelowMidDecibels, "dB"),
                new("cut from", cut, "s"),
            ],
        };
    }
}
