namespace Athwart.Metering.Events;

/// <summary>Finds where a take stands out of its floor, row by row, and puts the rows together.</summary>
internal sealed class StretchFinder
{
    // Where the sound's own power is the floor's, both together are twice as much.
    private const double PresentRatio = 2;
    private const double WellOutRatio = 16;
    private const int StrikeReach = 1;

    // An echo comes within 150 ms, stands 4 dB out, and would be a chance of the floor once in many years.
    private const int EchoSteps = 30;
    private const double EchoRatio = 2.5, SureDeviations = 8;

    // How far a fit looks either way.
    private const int LookBack = 100, LookOn = 40;

    private readonly LevelTrack _track;
    private readonly FloorTrack _floors;
    private readonly double _onset;
    private readonly List<RowRun> _runs = [];

    private StretchFinder(LevelTrack track, FloorTrack floors, double onsetDecibels)
    {
        (_track, _floors, _onset) = (track, floors, onsetDecibels);
        (Heights, Highest) = (new float[track.Steps], new byte[track.Steps]);
        for (var row = 0; row < track.Rows; row++)
            Scan(row);
    }

    /// <summary>How far each step stands out in the row where it does most, as a ratio of powers.</summary>
    public float[] Heights { get; }

    /// <summary>Which row that is.</summary>
    public byte[] Highest { get; }

    /// <summary>Finds the stretches, in order, none touching another.</summary>
    public static (List<Stretch> Stretches, StretchFinder Finder) Find(LevelTrack track, FloorTrack floors, double onsetDecibels)
    {
        var finder = new StretchFinder(track, floors, onsetDecibels);
        return (finder.Together(), finder);
    }

    private double Threshold(int row) => Math.Pow(10, (_onset + (_track.Reach(row) switch { 8 => 3.5, 4 => 1.5, _ => 0 })) / 10);

    private void Scan(int row)
    {
        var powers = _track.Powers(row);
        var floor = new double[powers.Length];
        for (var step = 0; step < floor.Length; step++)
            floor[step] = _floors.Power(row, step);
        var quick = Smoothing.Mean(powers, StrikeReach);
        var smooth = Smoothing.Mean(powers, _track.Reach(row));
        for (var step = 0; step < quick.Length; step++)
        {
            if (quick[step] / floor[step] is var height && height > Heights[step])
                (Heights[step], Highest[step]) = ((float)height, (byte)row);
        }

        var runs = Present(quick, smooth, floor, Threshold(row), 2 * _track.Reach(row));
        for (var i = 0; i < runs.Count; i++)
        {
            if (!runs[i].Struck && !IsEcho(runs, i, quick, floor, _track.Freedom(row)))
                continue;
            // A fit looks no further than to the next run of the row.
            var (before, after) = (i == 0 ? 0 : runs[i - 1].To, i == runs.Count - 1 ? quick.Length : runs[i + 1].From);
            _runs.Add(new(Start(powers, quick, floor, runs[i], before, _track.Freedom(row)), End(powers, quick, floor, runs[i], after, _track.Freedom(row))));
        }
    }

    // Runs in which the row is present, and whether each reaches the threshold somewhere.
    private static List<Run> Present(float[] quick, float[] smooth, double[] floor, double threshold, int gap)
    {
        var runs = new List<Run>();
        for (var step = 0; step < quick.Length; step++)
        {
            // The filters of a narrow band have still to fill at the very start.
            var strikes = quick[step] >= threshold * floor[step] && step >= gap / 2;
            if (!strikes && smooth[step] < PresentRatio * floor[step] && quick[step] < EchoRatio * floor[step])
                continue;
            if (runs.Count > 0 && step - runs[^1].To < gap)
                runs[^1] = new(runs[^1].From, step + 1, runs[^1].Struck || strikes);
            else
                runs.Add(new(step, step + 1, strikes));
        }

        return runs;
    }

    private static double Start(float[] powers, float[] quick, double[] floor, Run run, int before, double freedom)
    {
        var (from, to, _) = run;
        if (from == 0)
            return 0;
        var wellOut = WellOut(quick, floor, from, Math.Min(to, from + LookBack));
        var strong = from;
        while (strong < to - 1 && strong < from + LookBack && quick[strong] < wellOut * floor[strong])
            strong++;
        // The running mean is well out a step before the sound is.
        strong = Math.Min(strong + (2 * StrikeReach), to - 1);
        return EdgeFit.Find(powers, floor[from], strong, -1, Math.Min(strong - from + LookOn, strong + 1 - before), freedom);
    }

    private static double End(float[] powers, float[] quick, double[] floor, Run run, int after, double freedom)
    {
        var (from, to, _) = run;
        if (to == powers.Length)
            return to;
        var wellOut = WellOut(quick, floor, Math.Max(from, to - LookBack), to);
        var strong = to - 1;
        while (strong > from && strong > to - LookBack && quick[strong] < wellOut * floor[strong])
            strong--;
        strong = Math.Max(strong - (2 * StrikeReach), from);
        return EdgeFit.Find(powers, floor[to - 1], strong, 1, Math.Min(to - strong + LookOn, after - strong), freedom);
    }

    // What comes shortly after an event and is surely no chance of the floor belongs to it, though it would be no event by itself.
    private static bool IsEcho(List<Run> runs, int i, float[] quick, double[] floor, double freedom)
    {
        if (i == 0 || !runs[i - 1].Struck || runs[i].From - runs[i - 1].To > EchoSteps)
            return false;
        var least = Math.Max(EchoRatio, 1 + (SureDeviations * Math.Sqrt(2 / (freedom * ((2 * StrikeReach) + 1)))));
        for (var step = runs[i].From; step < runs[i].To; step++)
        {
            if (quick[step] >= least * floor[step])
                return true;
        }

        return false;
    }

    // A row that hardly reaches the threshold is well out at half its height already.
    private static double WellOut(float[] quick, double[] floor, int from, int to)
    {
        var most = 0.0;
        for (var step = from; step < to; step++)
            most = Math.Max(most, quick[step] / floor[step]);
        return Math.Min(WellOutRatio, most / 2);
    }

    private List<Stretch> Together()
    {
        var stretches = new List<Stretch>();
        foreach (var run in _runs.OrderBy(r => r.From))
        {
            if (stretches.Count > 0 && run.From <= stretches[^1].To)
                stretches[^1] = stretches[^1] with { To = Math.Max(stretches[^1].To, run.To) };
            else if (run.To > run.From)
                stretches.Add(new(Math.Max(0, run.From), Math.Min(_track.Steps, run.To)));
        }

        return stretches;
    }

    private readonly record struct Run(int From, int To, bool Struck);

    private readonly record struct RowRun(double From, double To);
}
