using Athwart.Signals.Filters;
using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping;

/// <summary>A step made of second-order sections: the cuts, bells and shelves. No latency; a role not treated keeps its bits.</summary>
public class SectionStage : IPairStage
{
    // ln(10^7): −140 dB.
    private const double NepersToNothing = 16.11809565095832;

    private readonly BiquadCoefficients[] _mid;
    private readonly BiquadCoefficients[] _side;
    private readonly SectionCascade _cascade;

    /// <summary>Lays the same sections over the roles.</summary>
    private protected SectionStage(PairRoles roles, IReadOnlyList<BiquadCoefficients> sections)
        : this(roles.HasFlag(PairRoles.Mid) ? sections : [], roles.HasFlag(PairRoles.Side) ? sections : [])
    {
    }

    private protected SectionStage(IEnumerable<BiquadCoefficients> mid, IEnumerable<BiquadCoefficients> side)
    {
        (_mid, _side) = ([.. mid], [.. side]);
        _cascade = new(_mid, _side);
        SettlingFrames = Math.Max(Settling(_mid), Settling(_side));
    }

    // Two in a row. They begin as early as they would apart: a rendering from the middle of a take keeps its bits.
    private SectionStage(SectionStage first, SectionStage second)
        : this([.. first._mid, .. second._mid], [.. first._side, .. second._side]) => SettlingFrames = first.SettlingFrames + second.SettlingFrames;

    /// <inheritdoc/>
    public int LatencyFrames => 0;

    /// <inheritdoc/>
    public long SettlingFrames { get; }

    /// <summary>The same steps with neighbours of sections made one: the same bits in fewer passes, about twice as fast.</summary>
    /// <param name="stages">The steps of a treatment, in order.</param>
    /// <returns>The steps to run in their place; to be begun before they are used.</returns>
    public static IReadOnlyList<IPairStage> Join(IEnumerable<IPairStage> stages)
    {
        var joined = new List<IPairStage>();
        foreach (var given in stages)
        {
            var stage = given is ComposedStage composed ? composed.Inner : given;
            if (stage is SectionStage next && joined is [.., SectionStage last])
                joined[^1] = new SectionStage(last, next);
            else
                joined.Add(stage);
        }

        return joined;
    }

    /// <inheritdoc/>
    public void Begin(long firstFrame) => _cascade.Reset();

    /// <inheritdoc/>
    public void Process(Span<double> mid, Span<double> side)
    {
        SettingsRules.SameLength(mid, side);
        _cascade.Process(mid, side);
    }

    // One after the other, each as long as its slowest pole rings; more than all of them together need.
    private static long Settling(IEnumerable<BiquadCoefficients> sections) => (long)sections.Sum(c =>
    {
        var square = (c.A1 * c.A1 / 4) - c.A2;
        var slowest = square >= 0 ? (Math.Abs(c.A1) / 2) + Math.Sqrt(square) : Math.Sqrt(c.A2);
        return slowest <= 0 ? 2 : Math.Ceiling(2 + (NepersToNothing / -FixedExponential.Log(slowest)));
    });
}
