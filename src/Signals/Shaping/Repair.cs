using System.Globalization;
using Athwart.Quantities;
using Athwart.Signals.Repairs;

namespace Athwart.Signals.Shaping;

/// <summary>Replaces clicks and short dropouts by what the sound around them leads to expect.</summary>
public sealed record Repair
{
    /// <summary>The longest gap, in milliseconds: beyond it there is too little left to go by.</summary>
    public const double LongestMilliseconds = 100;

    private const int MostRanges = 100_000;
    private readonly EquatableList<FrameRange> _ranges;

    /// <summary>Names what is damaged and where.</summary>
    /// <param name="roles">Mid, side or both.</param>
    /// <param name="ranges">Damaged frames of the take, 1 to 100000 stretches, none empty, in any order.</param>
    /// <exception cref="ArgumentException">There is no range, too many, or an empty one.</exception>
    public Repair(PairRoles roles, IReadOnlyList<FrameRange> ranges)
    {
        ArgumentNullException.ThrowIfNull(ranges);
        Roles = SettingsRules.Roles(roles);
        if (ranges.Count is 0 or > MostRanges)
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"A repair names 1 to {MostRanges} damaged stretches; given were {ranges.Count}."), nameof(ranges));
        foreach (var range in ranges)
        {
            if (range.From.Value < 0 || range.Length.Value <= 0)
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The damaged stretch from frame {range.From} to {range.To} is empty or begins before the take; give its first frame and the frame after its last."), nameof(ranges));
        }

        _ranges = new(ranges);
    }

    /// <summary>What is repaired.</summary>
    public PairRoles Roles { get; }

    /// <summary>The damaged stretches as given.</summary>
    public IReadOnlyList<FrameRange> Ranges => _ranges;
}

/// <summary><see cref="Repair"/> at work. Frames that are not damaged keep every bit; latency is what the longest gap needs to see after it.</summary>
/// <remarks>Each gap is filled from what is undamaged around it (<see cref="GapFiller"/>); gaps closer than 64 frames are filled as one.</remarks>
public sealed class RepairStage : IPairStage
{
    private const int LeastBetween = 64;
    private const int Chunk = 4096;

    private readonly PairRoles _roles;
    private readonly List<FrameRange> _gaps;
    private readonly long _takeFrames;
    private readonly int _context;
    private readonly double[] _midLine;
    private readonly double[] _sideLine;
    private long _begin;
    private long _end; // of what has come in
    private int _next;

    /// <summary>Prepares the repair.</summary>
    /// <param name="settings">What to do.</param>
    /// <param name="sampleRateHertz">Sample rate in hertz.</param>
    /// <param name="takeFrames">How long the take is: what a driver feeds beyond it is not sound to go by.</param>
    /// <exception cref="ArgumentException">A gap, neighbours joined, is longer than <see cref="Repair.LongestMilliseconds"/>.</exception>
    public RepairStage(Repair settings, int sampleRateHertz, long takeFrames = long.MaxValue)
    {
        (_roles, _takeFrames) = (settings.Roles, takeFrames);
        _gaps = Joined(settings.Ranges);
        var gap = _gaps.MaxBy(g => g.Length.Value);
        if (gap.Length.Value * 1000.0 > Repair.LongestMilliseconds * SettingsRules.Rate(sampleRateHertz))
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The damaged stretch from frame {gap.From} to {gap.To} is longer than {Repair.LongestMilliseconds} ms, too long to be filled from what is around it; cut it out or fade over it."), nameof(settings));
        var longest = (int)gap.Length.Value;
        _context = GapFiller.Context(longest);
        LatencyFrames = longest + _context;
        SettlingFrames = longest + _context;
        (_midLine, _sideLine) = (new double[_context + LatencyFrames + Chunk], new double[_context + LatencyFrames + Chunk]);
    }

    /// <inheritdoc/>
    public int LatencyFrames { get; }

    /// <inheritdoc/>
    public long SettlingFrames { get; }

    /// <inheritdoc/>
    public void Begin(long firstFrame)
    {
        Array.Clear(_midLine);
        Array.Clear(_sideLine);
        (_begin, _end, _next) = (firstFrame, firstFrame, 0);
        while (_next < _gaps.Count && _gaps[_next].From.Value < firstFrame)
            _next++;
    }

    /// <inheritdoc/>
    public void Process(Span<double> mid, Span<double> side)
    {
        SettingsRules.SameLength(mid, side);
        while (mid.Length > 0)
        {
            var count = Math.Min(mid.Length, Chunk);
            TakeIn(_midLine, mid[..count]);
            TakeIn(_sideLine, side[..count]);
            _end += count;
            for (; _next < _gaps.Count && _gaps[_next].To.Value + GapFiller.Context((int)_gaps[_next].Length.Value) <= _end; _next++)
                Fill(_next);
            GiveOut(_midLine, mid[..count]);
            GiveOut(_sideLine, side[..count]);
            mid = mid[count..];
            side = side[count..];
        }
    }

    private static List<FrameRange> Joined(IEnumerable<FrameRange> ranges)
    {
        var joined = new List<FrameRange>();
        foreach (var range in ranges.OrderBy(r => r.From.Value))
        {
            if (joined is [.., var last] && range.From.Value < last.To.Value + LeastBetween)
                joined[^1] = new(last.From, new(Math.Max(last.To.Value, range.To.Value)));
            else
                joined.Add(range);
        }

        return joined;
    }

    private static void TakeIn(double[] line, ReadOnlySpan<double> samples)
    {
        line.AsSpan(samples.Length).CopyTo(line);
        samples.CopyTo(line.AsSpan(line.Length - samples.Length));
    }

    private void GiveOut(double[] line, Span<double> samples) => line.AsSpan(line.Length - samples.Length - LatencyFrames, samples.Length).CopyTo(samples);

    // Neither what other gaps hold nor what lies outside the take is anything to go by.
    private void Fill(int index)
    {
        var (from, to) = (_gaps[index].From.Value, _gaps[index].To.Value);
        var context = GapFiller.Context((int)(to - from));
        var first = Math.Max(Math.Max(_begin, 0), Math.Max(from - context, index > 0 ? _gaps[index - 1].To.Value : 0));
        var last = Math.Max(to, Math.Min(Math.Min(_takeFrames, to + context), index + 1 < _gaps.Count ? _gaps[index + 1].From.Value : long.MaxValue));
        if (_roles.HasFlag(PairRoles.Mid))
            GapFiller.Fill(Stretch(_midLine, first, last), (int)(from - first), (int)(to - from));
        if (_roles.HasFlag(PairRoles.Side))
            GapFiller.Fill(Stretch(_sideLine, first, last), (int)(from - first), (int)(to - from));
    }

    private Span<double> Stretch(double[] line, long first, long last) => line.AsSpan((int)(line.Length - (_end - first)), (int)(last - first));
}
