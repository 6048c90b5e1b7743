namespace Athwart.Bench;

/// <summary>Runs the entrants in turn, so that what else the machine does in a round meets them all.</summary>
internal static class ContestRunner
{
    public static ContestResult Run(Contest contest, int rounds)
    {
        var figures = contest.Entrants.Select(_ => new List<double>()).ToList();
        var processor = contest.Entrants.Select(_ => new List<double>()).ToList();
        var faults = new string?[contest.Entrants.Count];

        // Round 0 warms the page cache and is thrown away.
        for (var round = 0; round <= rounds * contest.RoundFactor; round++)
        {
            for (var turn = 0; turn < contest.Entrants.Count; turn++)
            {
                // Another one begins in each round: nobody always follows the same program.
                var who = (round + turn) % contest.Entrants.Count;
                if (faults[who] is not null)
                    continue;
                var (figure, busy) = Measure(contest, contest.Entrants[who], out faults[who]);
                if (round == 0)
                    continue;
                figures[who].Add(figure);
                processor[who].Add(busy);
            }
        }

        foreach (var entrant in contest.Entrants)
            Clean(entrant);
        return new(contest, [.. contest.Entrants.Select((entrant, who) => new EntrantResult(entrant, figures[who], faults[who]) { Processor = processor[who] })]);
    }

    private static (double Figure, double Processor) Measure(Contest contest, Entrant entrant, out string? fault)
    {
        Clean(entrant);
        var cost = contest.Measure == ContestMeasure.Seconds ? Shell.Time(entrant.CommandLine) : Shell.Memory(entrant.CommandLine);
        fault = entrant.Good.Contains(cost.ExitCode) ? null : $"exit {cost.ExitCode}: {cost.Error.Trim().Split('\n')[^1]}";
        return contest.Measure == ContestMeasure.Seconds ? (cost.Seconds, cost.ProcessorSeconds) : (cost.MebibytesResident, double.NaN);
    }

    private static void Clean(Entrant entrant)
    {
        if (entrant.Prepare.Length > 0)
            Shell.Must(entrant.Prepare);
    }
}
