namespace Athwart.Metering.Slate;

/// <summary>Finds where somebody speaks: syllables of which most have a pitch, and a pitch that moves but does not jump.</summary>
/// <remarks>
/// Speech swings in level two to eight times a second and has a pitch between 80 and 300 Hz that glides (textbook knowledge, no one
/// source). An engine has a pitch and no syllables; steps and strokes have syllables and no pitch; a bell has a pitch that stays.
/// </remarks>
internal static class SpeechFinder
{
    private const double WindowSeconds = 1.2, HopSeconds = 0.1;
    private const double Voiced = 0.7, MostBelowLoudest = 22;

    /// <summary>Stretches of speech, in order; what lies less than a second apart is one.</summary>
    public static IReadOnlyList<SpokenStretch> Find(SlateHead head)
    {
        var (window, hop) = ((int)(WindowSeconds / head.StepSeconds), (int)(HopSeconds / head.StepSeconds));
        var floor = Floor(head.Frames);
        var found = new List<(int From, int To)>();
        for (var at = 0; at + window <= head.Frames.Count; at += hop)
        {
            if (!Speaks(head.Frames, at, at + window, floor, head.StepSeconds))
                continue;
            if (found.Count > 0 && at <= found[^1].To + (int)(1 / head.StepSeconds))
                found[^1] = (found[^1].From, at + window);
            else
                found.Add((at, at + window));
        }

        return [.. found.Select(f => Measure(head, Trim(head.Frames, f.From, f.To, floor)))];
    }

    /// <summary>The level of the quiet.</summary>
    private static double Floor(IReadOnlyList<VoiceFrame> frames) => frames.Count == 0 ? 0 : frames.Select(f => f.MidDecibels).Order().ElementAt(frames.Count / 10);

    private static bool Speaks(IReadOnlyList<VoiceFrame> frames, int from, int to, double floor, double step)
    {
        var loudest = 0.0;
        for (var i = from; i < to; i++)
            loudest = i == from ? frames[i].MidDecibels : Math.Max(loudest, frames[i].MidDecibels);
        if (loudest < floor + 12 || loudest < -70)
            return false;
        var sounding = Enumerable.Range(from, to - from).Where(i => frames[i].MidDecibels > Math.Max(floor + 6, loudest - MostBelowLoudest)).ToList();
        var voiced = sounding.Where(i => frames[i].Voicing > Voiced).ToList();
        if (sounding.Count < 0.25 * (to - from) || voiced.Count < 0.4 * sounding.Count)
            return false;
        var syllables = Syllables(frames, from, to) / ((to - from) * step);
        if (syllables is < 1.6 or > 9)
            return false;
        // In the mid: a head is spoken near the rig, ahead of it or behind.
        return voiced.Average(i => frames[i].SideDecibels - frames[i].MidDecibels) < -2 && Glides(frames, voiced);
    }

    /// <summary>Whether the pitch moves over the stretch and hardly jumps from step to step.</summary>
    private static bool Glides(IReadOnlyList<VoiceFrame> frames, List<int> voiced)
    {
        var octaves = voiced.ConvertAll(i => Math.Log2(frames[i].PitchHertz));
        var middle = octaves.Order().ElementAt(octaves.Count / 2);
        var spread = octaves.Select(o => Math.Abs(o - middle)).Order().ElementAt(octaves.Count * 3 / 4);
        var (steps, jumps) = (0, 0);
        for (var i = 1; i < voiced.Count; i++)
        {
            if (voiced[i] != voiced[i - 1] + 1)
                continue;
            steps++;
            if (Math.Abs(octaves[i] - octaves[i - 1]) > 0.12)
                jumps++;
        }

        return spread is > 0.012 and < 0.6 && steps > 10 && jumps < 0.25 * steps;
    }

    /// <summary>Peaks of the smoothed level that stand 5 dB above the dips on both sides.</summary>
    private static int Syllables(IReadOnlyList<VoiceFrame> frames, int from, int to)
    {
        var (count, high, low, rising) = (0, double.NegativeInfinity, double.PositiveInfinity, true);
        for (var i = from; i < to; i++)
        {
            var level = Smooth(frames, i);
            if (rising)
            {
                high = Math.Max(high, level);
                if (level < high - 5)
                    (rising, low, count) = (false, level, count + 1);
            }
            else
            {
                low = Math.Min(low, level);
                if (level > low + 5)
                    (rising, high) = (true, level);
            }
        }

        return count;
    }

    private static double Smooth(IReadOnlyList<VoiceFrame> frames, int at)
    {
        var (sum, count) = (0.0, 0);
        for (var i = Math.Max(0, at - 2); i <= Math.Min(frames.Count - 1, at + 2); i++, count++)
            sum += frames[i].MidDecibels;
        return sum / count;
    }

    /// <summary>From the first sound to the last: a window begins before the word and ends after it.</summary>
    private static (int From, int To) Trim(IReadOnlyList<VoiceFrame> frames, int from, int to, double floor)
    {
        var loudest = Enumerable.Range(from, to - from).Max(i => frames[i].MidDecibels);
        var edge = Math.Max(floor + 6, loudest - 30);
        while (from < to - 1 && frames[from].MidDecibels < edge)
            from++;
        // The windows hold ten steps too many at either end only when speech fills them.
        while (to > from + 1 && frames[to - 1].MidDecibels < edge)
            to--;
        return (from, to);
    }

    private static SpokenStretch Measure(SlateHead head, (int From, int To) place)
    {
        var (from, to) = place;
        var loudest = Enumerable.Range(from, to - from).Max(i => head.Frames[i].MidDecibels);
        var sounding = Enumerable.Range(from, to - from).Select(i => head.Frames[i]).Where(f => f.MidDecibels > loudest - MostBelowLoudest).ToList();
        var voiced = sounding.Where(f => f.Voicing > Voiced).ToList();
        return new(
            from,
            to,
            Syllables(head.Frames, from, to) / ((to - from) * head.StepSeconds),
            voiced.Select(f => f.PitchHertz).Order().ElementAtOrDefault(voiced.Count / 2),
            voiced.Count / (double)Math.Max(1, sounding.Count),
            voiced.Count == 0 ? 0 : voiced.Average(f => f.MidDecibels - f.SideDecibels));
    }
}
