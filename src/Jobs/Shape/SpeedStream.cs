using Athwart.Signals.Resampling;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape;

/// <summary>A pair played slower or faster from one frame on: both roles, or one of them against the other.</summary>
/// <remarks>The frame <c>anchor</c> keeps its number; the frames after it are counted in the new time. Before it there is silence.</remarks>
internal sealed class SpeedStream : IPairStream
{
    private readonly RoleReader _first;
    private readonly RoleReader? _second;
    private readonly PairRoles _roles;
    private readonly long _anchor;
    private double[] _spare = [];

    /// <param name="upstream">Opens what is played; once for both roles, and once for each where they go at different speeds.</param>
    /// <param name="speed">How fast, and what.</param>
    /// <param name="anchor">The frame that both roles begin together at.</param>
    /// <param name="length">How many frames of the upstream are played from there.</param>
    public SpeedStream(Func<IPairStream> upstream, Speed speed, long anchor, long length)
    {
        _anchor = anchor;
        _roles = speed.Roles;
        _first = new(upstream(), speed.Ratio, anchor, length);
        _second = speed.Roles == PairRoles.Both ? null : new(upstream(), 1, anchor, length);
        Length = speed.OutputLength(length);
    }

    /// <inheritdoc/>
    public long Earliest => _anchor;

    /// <summary>How many frames there are in the new time.</summary>
    public long Length { get; }

    /// <inheritdoc/>
    public void Begin(long frame)
    {
        _first.Begin(frame - _anchor);
        _second?.Begin(frame - _anchor);
    }

    /// <inheritdoc/>
    public void Read(Span<double> mid, Span<double> side)
    {
        if (_spare.Length < mid.Length)
            _spare = new double[mid.Length];
        var spare = _spare.AsSpan(0, mid.Length);
        if (_second is null)
        {
            _first.Read(mid, side);
        }
        else if (_roles == PairRoles.Mid)
        {
            _first.Read(mid, spare);
            _second.Read(spare, side);
        }
        else
        {
            _first.Read(spare, side);
            _second.Read(mid, spare);
        }
    }

    /// <summary>One speed, read in order: keeps the stretch of input that the next output frames need.</summary>
    private sealed class RoleReader(IPairStream upstream, double ratio, long anchor, long length)
    {
        private const int BlockFrames = 4096;

        private readonly SpeedChange _change = new(ratio);
        private double[] _mid = [];
        private double[] _side = [];
        private long _windowFrom;
        private int _held;
        private long _next;

        public void Begin(long output)
        {
            _next = output;
            _windowFrom = _change.InputRange(Math.Max(0, output), 1).From;
            _held = 0;
            upstream.Begin(anchor + _windowFrom);
        }

        public void Read(Span<double> mid, Span<double> side)
        {
            for (var done = 0; done < mid.Length;)
            {
                var count = Math.Min(BlockFrames, mid.Length - done);
                count = _next < 0 ? (int)Math.Min(count, -_next) : count;
                ReadBlock(mid.Slice(done, count), side.Slice(done, count));
                done += count;
                _next += count;
            }
        }

        private void ReadBlock(Span<double> mid, Span<double> side)
        {
            var there = _next < 0 ? 0 : (int)Math.Clamp(_change.OutputLength(length) - _next, 0, mid.Length);
            mid[there..].Clear();
            side[there..].Clear();
            if (there == 0)
                return;
            Extend(_change.InputRange(_next, there));
            _change.Convert(_mid.AsSpan(0, _held), _side.AsSpan(0, _held), _windowFrom, _next, mid[..there], side[..there]);
        }

        private void Extend((long From, long To) range)
        {
            var stale = (int)Math.Clamp(range.From - _windowFrom, 0, _held);
            _mid.AsSpan(stale, _held - stale).CopyTo(_mid);
            _side.AsSpan(stale, _held - stale).CopyTo(_side);
            (_windowFrom, _held) = (_windowFrom + stale, _held - stale);
            var wanted = (int)(range.To - _windowFrom);
            if (_mid.Length < wanted)
            {
                Array.Resize(ref _mid, wanted);
                Array.Resize(ref _side, wanted);
            }

            if (wanted <= _held)
                return;
            upstream.Read(_mid.AsSpan(_held, wanted - _held), _side.AsSpan(_held, wanted - _held));
            _held = wanted;
        }
    }
}
