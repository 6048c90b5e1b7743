using System.Runtime.Intrinsics;

namespace Athwart.Metering.Events;

/// <summary>Splits a pair into bands of two octaves, the lower ones at lower rates, and sums their powers.</summary>
internal sealed class BandSplitter
{
    /// <summary>Where the bands part, hertz, from the top; those a rate cannot hold are left out.</summary>
    private static readonly double[] Edges = [9600, 2400, 600, 150];
    private const double LowestHertz = 20;

    // An edge needs room below half the rate; what a lower rate folds back lies three octaves above the edge, 70 dB down.
    private const double HighestEdgeOfRate = 0.4;
    private const double KeptRateOfEdge = 8;

    private readonly Stage[] _stages;
    private Vector128<double>[] _work = [], _next = [];

    public BandSplitter(int sampleRateHertz)
    {
        var stages = new List<Stage>();
        var rate = (double)sampleRateHertz;
        foreach (var edge in Edges.Where(e => e < HighestEdgeOfRate * sampleRateHertz))
        {
            var keepOneOf = Math.Max(1, (int)(rate / (KeptRateOfEdge * edge)));
            stages.Add(new(PairSection.Fourth(edge, rate, high: true), PairSection.Fourth(edge, rate, high: false), keepOneOf, edge));
            rate /= keepOneOf;
        }

        stages.Add(new([PairSection.Second(LowestHertz, rate, high: true, Math.Sqrt(0.5))], [], 1, LowestHertz));
        _stages = [.. stages];
        Widths = [.. _stages.Select((s, i) => (i == 0 ? Math.Min(20000, 0.5 * sampleRateHertz) : _stages[i - 1].LowHertz) - s.LowHertz)];
    }

    /// <summary>How many bands, the highest first.</summary>
    public int Bands => _stages.Length;

    /// <summary>How wide each band is, hertz.</summary>
    public IReadOnlyList<double> Widths { get; }

    /// <summary>Adds frames to the sums of the step that is under way.</summary>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        if (_work.Length < mid.Length)
            (_work, _next) = (new Vector128<double>[mid.Length], new Vector128<double>[mid.Length]);
        for (var i = 0; i < mid.Length; i++)
            _work[i] = Vector128.Create(mid[i], (double)side[i]);
        var count = mid.Length;
        foreach (var stage in _stages)
        {
            count = stage.Run(_work.AsSpan(0, count), _next);
            (_work, _next) = (_next, _work);
        }
    }

    /// <summary>Ends a step: mean squares of mid and side and their mean product in a band.</summary>
    public (double Mid, double Side, double Product) Take(int band) => _stages[band].Take();

    private sealed class Stage(PairSection[] own, PairSection[] below, int keepOneOf, double lowHertz)
    {
        private Vector128<double> _squares;
        private double _product;
        private int _count, _phase;

        public double LowHertz => lowHertz;

        // What lies below goes to the next stage; the band itself is filtered in place and summed.
        public int Run(Span<Vector128<double>> pair, Vector128<double>[] next)
        {
            pair.CopyTo(next);
            foreach (var section in own)
                section.Process(pair);
            foreach (var x in pair)
            {
                _squares += x * x;
                _product += x[0] * x[1];
            }

            _count += pair.Length;
            return below.Length == 0 ? 0 : Thin(next.AsSpan(0, pair.Length));
        }

        public (double Mid, double Side, double Product) Take()
        {
            var n = Math.Max(1, _count);
            var result = (_squares[0] / n, _squares[1] / n, _product / n);
            (_squares, _product, _count) = (Vector128<double>.Zero, 0, 0);
            return result;
        }

        private int Thin(Span<Vector128<double>> pair)
        {
            foreach (var section in below)
                section.Process(pair);
            var kept = 0;
            for (; _phase < pair.Length; _phase += keepOneOf)
                pair[kept++] = pair[_phase];
            _phase -= pair.Length;
            return kept;
        }
    }
}
