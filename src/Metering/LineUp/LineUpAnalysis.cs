using Athwart.Quantities;

namespace Athwart.Metering.LineUp;

/// <summary>Measures a mid-side rig from one take with sounds from known directions.</summary>
/// <remarks>
/// Physics of the ideal rig: a sound at azimuth a gives mid = A + (1 − A)·cos a and side = g·sin a, and reaches the side
/// τ − (x·cos a + y·sin a)/c after the mid, x metres being the side's place ahead and y to the left. Only the direct sound counts, up
/// to the first reflection; the middle value over several sounds is taken. Not for the audio path.
/// </remarks>
public static class LineUpAnalysis
{
    private const double SustainedWindowMilliseconds = 25;

    /// <summary>Measures.</summary>
    /// <param name="first">One channel, full scale ±1.</param>
    /// <param name="second">The other, as long.</param>
    /// <param name="sampleRateHertz">Frames a second, 8000 or more.</param>
    /// <param name="settings">What is known.</param>
    /// <returns>What could be told; a take of silence or of length 0 tells nothing, and says so.</returns>
    /// <exception cref="ArgumentException">The lengths differ, or a setting is out of range.</exception>
    public static LineUpResult Measure(float[] first, float[] second, int sampleRateHertz, LineUpSettings settings)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentOutOfRangeException.ThrowIfLessThan(sampleRateHertz, 8000);
        if (settings.Problem() is { } problem)
            throw new ArgumentException(problem, nameof(settings));
        if (first.Length != second.Length)
            throw new ArgumentException($"The channels have {first.Length} and {second.Length} frames; they must be as long as each other.", nameof(second));
        var pair = new SoundPair(Finite(first), Finite(second), sampleRateHertz);
        var found = LineUpSounds.Find(pair, settings.Order);
        return found.Groups is null ? Nothing(pair, settings, found) : new LineUpSolver(pair, settings, found).Solve();
    }

    /// <summary>Cuts the sounds, B later by the lag of its direction; claps count alone where there are both claps and voice in a direction.</summary>
    internal static IReadOnlyList<DirectionSums> Cut(SoundPair pair, LineUpSettings settings, LineUpSounds found, Func<LineUpDirection, int> lag, bool swapped)
    {
        var windows = new[] { new DirectWindow(pair.Rate, settings.DirectMilliseconds), new DirectWindow(pair.Rate, Math.Max(settings.DirectMilliseconds, SustainedWindowMilliseconds)) };
        var directions = new List<DirectionSums>();
        for (var group = 0; group < found.Directions.Count; group++)
        {
            var onsets = Onsets(pair, found, group);
            var sounds = onsets
                .Select(o => DirectSound.Measure(pair, windows[o.Sustained ? 1 : 0], o.Onset, o.Sustained ? onsets[0].Onset : o.Onset, lag(found.Directions[group]), o.Sustained))
                .OfType<DirectSound>()
                .Select(s => swapped ? s.Swapped() : s)
                .ToList();
            if (sounds.Count > 0)
                directions.Add(new(found.Directions[group], sounds));
        }

        return directions;
    }

    /// <summary>Where the sounds of a direction begin, and whether they go on.</summary>
    private static List<(int Onset, bool Sustained)> Onsets(SoundPair pair, LineUpSounds found, int group)
    {
        List<int> Of(int number) => [.. found.Onsets.Where((_, i) => found.Groups![i] == number)];
        // Of a clap in the mid's and the side's null only reflections are heard, which look like a sound that goes on.
        var isNull = found.Directions[group].Cosine < -0.9;
        var claps = isNull && Enumerable.Range(0, found.Directions.Count).Any(g => g != group && Of(g).Exists(o => !LineUpSounds.IsSustained(pair, o)));
        var onsets = Of(group).ConvertAll(o => (Onset: o, Sustained: !claps && LineUpSounds.IsSustained(pair, o)));
        if (onsets.Exists(o => !o.Sustained))
            onsets.RemoveAll(o => o.Sustained);
        return onsets;
    }

    // What is no number tells nothing.
    private static float[] Finite(float[] samples) => Array.TrueForAll(samples, float.IsFinite) ? samples : Array.ConvertAll(samples, x => float.IsFinite(x) ? x : 0);

    private static LineUpResult Nothing(SoundPair pair, LineUpSettings settings, LineUpSounds found)
    {
        var doubt = found.Onsets.Count == 0
            ? "no sound stands out of the noise"
            : $"{found.Onsets.Count} sounds were found, and their pauses do not divide them into {(settings.Order is null ? "directions" : $"the {found.Directions.Count} directions of the order")}";
        var unknown = Estimate.CannotTell(doubt);
        var quiet = new QuietParts(pair, found.Onsets);
        return new()
        {
            SampleRateHertz = pair.Rate,
            FirstIsMid = Verdict.CannotTell(doubt) with { Answer = true },
            SideInverted = Verdict.CannotTell(doubt),
            GainOffset = unknown,
            Delay = unknown,
            SpacingForward = unknown,
            SpacingLeft = unknown,
            SideAngle = unknown,
            MeasuredMidPattern = unknown,
            MidPattern = settings.MidPattern ?? LineUpSolver.UsualPattern,
            Response = [],
            Noise = [quiet.Measure(0, []), quiet.Measure(1, [])],
            Sounds = found.Onsets.Select(o => new LineUpSound(o, LineUpDirection.Silence, double.NaN, double.NaN, false)).ToList(),
            Directions = [],
            Assumptions = [],
            Findings =
            [
                new()
                {
                    Kind = LineUpKinds.CannotTell,
                    Severity = FindingSeverity.Caution,
                    Message = $"The line-up cannot be read: {doubt}.",
                    Remedy = "Make three or more claps a direction, half a second apart, and pause for three seconds between directions; name the directions in their order.",
                },
            ],
        };
    }
}
