using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping;

/// <summary><see cref="TransientBalance"/> at work; the role not named keeps its bits.</summary>
/// <remarks>
/// The sound comes out later by two time constants of the quick follower, rounded to frames, so that the gain is there when the strike is; both
/// roles are late alike. The gain itself passes once more through the quick follower's constant, so that it does not bend a wave.
/// </remarks>
public sealed class TransientBalanceStage : IPairStage
{
    // e^(−16.2) is −140 dB; energies fade by 140 dB in half that, and the gain hangs on their ratio.
    private const double FadedConstants = 16.2;
    private readonly RoleShaper _mid;
    private readonly RoleShaper _side;

    /// <summary>A stage for one rate.</summary>
    public TransientBalanceStage(TransientBalance settings, int sampleRateHertz)
    {
        ArgumentNullException.ThrowIfNull(settings);
        SettingsRules.Rate(sampleRateHertz);
        LatencyFrames = (int)Math.Round(2 * settings.QuickSeconds * sampleRateHertz);
        SettlingFrames = LatencyFrames + (long)Math.Ceiling(FadedConstants * settings.SlowSeconds * sampleRateHertz);
        _mid = new(settings, sampleRateHertz, LatencyFrames, settings.Roles.HasFlag(PairRoles.Mid));
        _side = new(settings, sampleRateHertz, LatencyFrames, settings.Roles.HasFlag(PairRoles.Side));
        Begin(0);
    }

    /// <inheritdoc/>
    public int LatencyFrames { get; }

    /// <inheritdoc/>
    public long SettlingFrames { get; }

    /// <inheritdoc/>
    public void Begin(long firstFrame)
    {
        _mid.Begin();
        _side.Begin();
    }

    /// <inheritdoc/>
    public void Process(Span<double> mid, Span<double> side)
    {
        SettingsRules.SameLength(mid, side);
        _mid.Process(mid);
        _side.Process(side);
    }

    /// <summary>One channel: a delay, and the gain if it is shaped.</summary>
    private sealed class RoleShaper
    {
        // −200 dBFS: below it there is nothing to tell a start from, and the gain is the sustain's.
        private const double Floor = 1e-20;
        private readonly bool _shapes;
        private readonly double[] _memory;
        private readonly double _quickStep;
        private readonly double _slowStep;
        private readonly double _sustain;
        private readonly double _rise;
        private int _place;
        private double _quick;
        private double _slow;
        private double _gain;

        public RoleShaper(TransientBalance settings, int rate, int latency, bool shapes)
        {
            _shapes = shapes;
            _memory = new double[latency];
            _quickStep = 1 - FixedExponential.Exp(-1 / (settings.QuickSeconds * rate));
            _slowStep = 1 - FixedExponential.Exp(-1 / (settings.SlowSeconds * rate));
            _sustain = SettingsRules.Ratio(settings.SustainDecibels);
            _rise = SettingsRules.Ratio(settings.TransientDecibels) - _sustain;
        }

        public void Begin()
        {
            Array.Clear(_memory);
            (_place, _quick, _slow, _gain) = (0, 0, 0, _sustain);
        }

        public void Process(Span<double> samples)
        {
            foreach (ref var sample in samples)
            {
                var gain = _shapes ? Gain(sample) : 1;
                (sample, _memory[_place]) = (_memory[_place], sample);
                sample *= gain;
                _place = _place + 1 == _memory.Length ? 0 : _place + 1;
            }
        }

        private double Gain(double sample)
        {
            var energy = (sample * sample) + Floor;
            _quick += _quickStep * (energy - _quick);
            _slow += _slowStep * (energy - _slow);
            var share = Math.Max(0, 1 - (_slow / _quick));
            _gain += _quickStep * (_sustain + (_rise * share) - _gain);
            return _gain;
        }
    }
}
