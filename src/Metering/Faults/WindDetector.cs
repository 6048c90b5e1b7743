using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Faults;

/// <summary>Wind, handling and rumble from the low frames.</summary>
/// <remarks>
/// Turbulence at two capsules is incoherent, its pressure spectrum falls about as f^(−7/3) and it comes in gusts: what is steep but
/// steady is called rumble, what is coherent is sound (Acoustics Today, winter 2021, pp. 22–24; slope: Zhao et al.).
/// </remarks>
internal static class WindDetector
{
    private const double MostCoherent = 0.5, Steeper = -1.1, ShallowestGust = 5, LeastOfBand = 0.12, ShallowestSlope = -0.2, MostUneven = 7.5;

    public static IEnumerable<Finding> Find(TakeMeasures m, FaultMeasures f)
    {
        var frames = f.Low;
        if (frames.Count < 8)
            yield break;
        bool[] mid = Windy(frames, false), side = Windy(frames, true);
        var wind = Wind(m, f, mid, side);
        if (wind is not null)
            yield return wind;
        foreach (var thump in Handling(m, f, wind is null ? null : (mid, side)))
            yield return thump;
        if (wind is null && Rumble(m, f) is { } rumble)
            yield return rumble;
    }

    /// <summary>Frames that are steep, stand out at the low end, and whose neighbours agree that mid and side have nothing in common.</summary>
    private static bool[] Windy(IReadOnlyList<LowFrame> frames, bool side)
    {
        var windy = new bool[frames.Count];
        // What the capsules share is sound, and may go on under the wind: only the rest is judged.
        var shared = Enumerable.Range(0, frames.Count).Select(i => Coherence(frames, i)).ToArray();
        var lull = frames.Select((x, i) => x.Low(side) * (1 - shared[i])).Order().ElementAt(frames.Count / 10);
        for (var i = 0; i < windy.Length; i++)
        {
            var (slope, n) = (0.0, 0);
            float[] lows = new float[7], bands = new float[7];
            for (var j = Math.Max(0, i - 3); j <= Math.Min(windy.Length - 1, i + 3); j++, n++)
                (lows[n], bands[n], slope) = (frames[j].Low(side), frames[j].Band(side), slope + frames[j].Slope(side));
            // The middle of a second: a thump is no wind.
            Array.Sort(lows, 0, n);
            Array.Sort(bands, 0, n);
            var (low, band) = (lows[n / 2], bands[n / 2]);
            // A capsule's own low cut takes the steep part away: then the low end must outweigh what is above it.
            var steep = (low > LeastOfBand * band && slope / n < Steeper) || (low > 4 * band && slope / n < 0.5);
            windy[i] = steep && low * (1 - shared[i]) > 4 * lull && low > 1e-8 && shared[i] < MostCoherent;
        }

        return windy;
    }

    /// <summary>Share of power that mid and side have in common from 10 to 80 Hz over 1 s, 0 to 1.</summary>
    internal static double Coherence(IReadOnlyList<LowFrame> frames, int at)
    {
        // Frames are set to one power first: else the loudest alone would decide, and one frame has little to average.
        var (re, im, n) = (0.0, 0.0, 0);
        for (var j = Math.Max(0, at - 5); j <= Math.Min(frames.Count - 1, at + 5); j++, n++)
        {
            var x = frames[j];
            var power = Math.Sqrt((double)x.MidLow * x.SideLow) + 1e-20;
            (re, im) = (re + (x.CrossRe / power), im + (x.CrossIm / power));
        }

        return ((re * re) + (im * im)) / ((double)n * n);
    }

    private static Finding? Wind(TakeMeasures m, FaultMeasures f, bool[] mid, bool[] side)
    {
        var (inMid, inSide) = (mid.Count(w => w), side.Count(w => w));
        var seconds = LowFrames.Hop / f.LowRate;
        var (gustMid, gustSide) = (Gusts(f.Low, false, inMid), Gusts(f.Low, true, inSide));
        if (gustMid < ShallowestGust)
            inMid = 0;
        if (gustSide < ShallowestGust)
            inSide = 0;
        var most = Math.Max(inMid, inSide);
        if (most * seconds < 1.5 || most < 0.02 * mid.Length)
            return null;
        var sideOnly = inMid < 0.2 * inSide;
        var midOnly = inSide < 0.2 * inMid;
        var role = sideOnly ? ChannelRole.Side : midOnly ? ChannelRole.Mid : (ChannelRole?)null;
        var windy = sideOnly ? side : mid;
        // An engine or a bass is a few lines, and a boom in a room dies out from the top: neither slopes down as turbulence does.
        if (MeanSlope(f.Low, windy, sideOnly) > ShallowestSlope || MiddleSpread(f.Low, windy, sideOnly) > MostUneven)
            return null;
        var level = Level(f.Low, windy, sideOnly);
        var share = (double)most / mid.Length;
        var sound = (sideOnly ? m.Side : m.Mid).Rms.Value;
        return new()
        {
            Kind = FaultKinds.Wind,
            Severity = level > sound - 12 && level > -60 ? FindingSeverity.Caution : FindingSeverity.Note,
            Role = role,
            Range = Extent(windy, f, m),
            Size = level,
            SizeUnit = "dBFS",
            Confidence = Math.Clamp(0.6 + (Math.Max(gustMid, gustSide) / 60), 0.6, 0.9),
            Message = Text($"Wind in {(role is { } r ? "the " + Name(r) : "mid and side")} for {100 * share:0} % of the take: gusts of {new DecibelsFullScale(level)} rms from 10 to 80 Hz that the capsules do not share. {(sideOnly ? "The mid is clean: mono is not concerned." : "Mono has it too.")}"),
            Remedy = sideOnly ? "A low cut at 80 to 100 Hz on the side alone saves it." : "A low cut on mid and side; a low cut on the side alone does not save it. A better wind shield next time.",
            Evidence = [new("share of the take", 100 * share, "%"), new("gusts above the lulls", Math.Max(gustMid, gustSide), "dB"), new("slope", MeanSlope(f.Low, windy, sideOnly), ""), new("windy frames of the mid", inMid, ""), new("windy frames of the side", inSide, "")],
        };
    }

    /// <summary>
    /// How far the low end of a role swings from second to second, in dB: over its 10th percentile its 90th, or, where wind lasts for less than
    /// that, what the stronger half of the windy time reaches.
    /// </summary>
    private static double Gusts(IReadOnlyList<LowFrame> frames, bool side, int windy)
    {
        var high = Math.Max(0.9, 1 - (0.5 * windy / frames.Count));
        var levels = new List<double>();
        for (var i = 0; i + 8 <= frames.Count; i += 4)
        {
            var sum = 0.0;
            for (var j = i; j < i + 8; j++)
                sum += frames[j].Low(side);
            levels.Add(10 * Math.Log10((sum / 8) + 1e-20));
        }

        levels.Sort();
        return levels.Count == 0 ? 0 : levels[(int)(high * (levels.Count - 1))] - levels[(int)(0.1 * (levels.Count - 1))];
    }

    private static double Level(IReadOnlyList<LowFrame> frames, bool[] windy, bool side)
    {
        var (sum, n) = (0.0, 0);
        for (var i = 0; i < windy.Length; i++)
        {
            if (windy[i])
                (sum, n) = (sum + frames[i].Low(side), n + 1);
        }

        return 10 * Math.Log10((sum / Math.Max(1, n)) + 1e-20);
    }

    private static double MeanSlope(IReadOnlyList<LowFrame> frames, bool[] windy, bool side) =>
        frames.Where((_, i) => windy[i]).Select(x => (double)x.Slope(side)).DefaultIfEmpty().Average();

    private static double MiddleSpread(IReadOnlyList<LowFrame> frames, bool[] windy, bool side) =>
        frames.Where((_, i) => windy[i]).Select(x => (double)x.Spread(side)).Order().ElementAt(windy.Count(w => w) / 2);

    private static FrameRange Extent(bool[] windy, FaultMeasures f, TakeMeasures m) =>
        RangeOf(Array.IndexOf(windy, true), Array.LastIndexOf(windy, true), f, m);

    private static FrameRange RangeOf(int first, int last, FaultMeasures f, TakeMeasures m)
    {
        var frames = LowFrames.Hop * (long)f.LowFactor;
        return FrameRange.FromFrames(Math.Min(first * frames, m.FrameCount.Value), Math.Min((last + 2) * frames, m.FrameCount.Value));
    }

    private static IEnumerable<Finding> Handling(TakeMeasures m, FaultMeasures f, (bool[] Mid, bool[] Side)? wind)
    {
        foreach (var side in (bool[])[false, true])
        {
            // Where the channel overloads, what is low is the loud sound itself.
            var overloads = (side ? m.Side : m.Mid).FullScale.Stretches.Concat((side ? m.Side : m.Mid).FlatTops.Stretches).ToList();
            var thumps = Thumps(f.Low, side, side ? wind?.Side : wind?.Mid).Where(t => RangeOf(t.First, t.Last, f, m) is var r && !overloads.Exists(o => o.Range.From.Value < r.To.Value + (m.SampleRateHertz / 2) && o.Range.To.Value > r.From.Value - (m.SampleRateHertz / 2))).ToList();
            // Many are steps of the source, a machine or surf.
            if (thumps.Count > 30)
                continue;
            var listed = thumps.OrderByDescending(t => t.Rise).Take(TakeDetectors.MostOfAKind).OrderBy(t => t.First).ToList();
            foreach (var t in listed)
                yield return Thump(t, side ? ChannelRole.Side : ChannelRole.Mid, Besides(thumps.Count - listed.Count, t == listed[^1]), f, m) is var found && Begins(f, side, t) ? AsSound(found) : found;
        }
    }

    /// <summary>
    /// Whether a sound begins with a thump: in the very 60 ms in which its low end rises, most of the bands from 1.2 kHz on rise too, in
    /// either channel. What is touched is heard through the stand, which carries little of that.
    /// </summary>
    private static bool Begins(FaultMeasures f, bool side, (int First, int Last, double Rise) t)
    {
        const int Ahead = 5, FirstHigh = 4;
        var gains = f.Gains;
        var frame = LowFrames.Hop / f.LowRate / 0.02;
        var (from, to) = (Math.Max(Ahead, (int)(t.First * frame) - 1), Math.Min(gains.Count - 3, (int)((t.Last + 2) * frame) + 1));
        if (to <= from || gains.Bands <= FirstHigh)
            return false;
        double Rise(bool of, int band, int at) => Enumerable.Range(at, 3).Max(i => gains.Level(of, band, i)) - Enumerable.Range(at - Ahead, Ahead).Max(i => gains.Level(of, band, i));
        var at = Enumerable.Range(from, to - from).MaxBy(i => Rise(side, 0, i));
        bool Rises(bool of, int reach) => Enumerable.Range(FirstHigh, gains.Bands - FirstHigh).Count(b => Enumerable.Range(Math.Max(Ahead, at - reach), (2 * reach) + 1).Any(i => i + 3 <= gains.Count && Rise(of, b, i) > 9)) * 2 > gains.Bands - FirstHigh;
        return Rises(false, 2) || Rises(true, 2);
    }

    private static Finding AsSound(Finding thump) => thump with
    {
        Severity = FindingSeverity.Note,
        Confidence = 0.3,
        Message = thump.Message + " A sound begins at the same moment: the thump may be part of it.",
    };

    /// <summary>Up to four frames that rise 18 dB at the low end over the second before and after, and far less above it.</summary>
    private static IEnumerable<(int First, int Last, double Rise)> Thumps(IReadOnlyList<LowFrame> frames, bool side, bool[]? wind)
    {
        for (var i = 0; i < frames.Count; i++)
        {
            var (low, band) = (Median(frames, i, x => x.Low(side)), Median(frames, i, x => x.Band(side)));
            var last = i;
            while (last < frames.Count && Rises(frames[last], low, band, side))
                last++;
            if (last == i)
                continue;
            var peak = Enumerable.Range(i, last - i).Max(j => frames[j].Low(side));
            if (last - i <= 4 && peak > 1e-6 && !(wind is not null && Enumerable.Range(i, last - i).Any(j => wind[j])))
                yield return (i, last - 1, 10 * Math.Log10(peak / low));
            i = last;
        }
    }

    private static bool Rises(LowFrame x, double low, double band, bool side) =>
        x.Low(side) > 63 * low && x.Low(side) / low > 16 * x.Band(side) / band && x.Low(side) > 4 * x.Band(side);

    private static double Median(IReadOnlyList<LowFrame> frames, int at, Func<LowFrame, float> of)
    {
        var near = Enumerable.Range(Math.Max(0, at - 12), Math.Min(frames.Count, at + 13) - Math.Max(0, at - 12)).Select(i => of(frames[i])).Order().ToList();
        return Math.Max(1e-12, near[near.Count / 2]);
    }

    private static Finding Thump((int First, int Last, double Rise) t, ChannelRole role, string besides, FaultMeasures f, TakeMeasures m)
    {
        var range = RangeOf(t.First, t.Last, f, m);
        return new()
        {
            Kind = FaultKinds.Handling,
            Severity = t.Rise > 30 ? FindingSeverity.Caution : FindingSeverity.Note,
            Role = role,
            Range = range,
            Size = t.Rise,
            SizeUnit = "dB",
            Confidence = 0.6,
            Message = Text($"A thump in the {Name(role)} at {Time(range.From, m.SampleRateHertz)}: from 10 to 80 Hz {t.Rise:0} dB above what is around, with little above 100 Hz, as from handling or the stand. {(role == ChannelRole.Mid ? "Mono has it too." : "Mono does not have it.")}{besides}"),
            Remedy = role == ChannelRole.Side ? "A low cut at 80 Hz on the side takes it out." : "A low cut at 80 Hz, or cut around it.",
            Evidence = [new("rise", t.Rise, "dB")],
        };
    }

    private static Finding? Rumble(TakeMeasures m, FaultMeasures f)
    {
        double Mid(Func<LowFrame, float> of) => f.Low.Select(x => (double)of(x)).Order().ElementAt(f.Low.Count / 2);
        var (low, band) = (Mid(x => x.MidLow), Mid(x => x.MidBand));
        var (level, above) = (10 * Math.Log10(low + 1e-20), 10 * Math.Log10((low + 1e-20) / (band + 1e-20)));
        if (level < -60 || above < 10 || level < m.Mid.Rms.Value - 6)
            return null;
        return new()
        {
            Kind = FaultKinds.Rumble,
            Severity = FindingSeverity.Note,
            Role = ChannelRole.Mid,
            Size = level,
            SizeUnit = "dBFS",
            Confidence = 0.6,
            Message = Text($"Steady rumble from 10 to 80 Hz at {new DecibelsFullScale(level)}, {above:0} dB above what lies from 100 to 400 Hz: most of the take's level is down there, in stereo and in mono."),
            Remedy = "A low cut if it is not the subject; it takes headroom from everything above.",
            Evidence = [new("10 to 80 Hz", level, "dBFS"), new("above 100 to 400 Hz", above, "dB")],
        };
    }
}
