using Athwart.Signals.Shaping.Control;

namespace Athwart.Signals.Shaping;

/// <summary><see cref="MadeUpSide"/> at work: the mid keeps its bits, no latency.</summary>
public sealed class MadeUpSideStage : IPairStage
{
    private const int Run = 256;
    private readonly IDecorrelator _decorrelator;
    private readonly LowEnd _lowEnd;
    private readonly double _gain;
    private readonly bool _keepsSide;
    private readonly double[] _made = new double[Run];

    /// <summary>A stage for one rate.</summary>
    public MadeUpSideStage(MadeUpSide settings, int sampleRateHertz)
    {
        ArgumentNullException.ThrowIfNull(settings);
        SettingsRules.Rate(sampleRateHertz);
        _decorrelator = settings.Method == MadeUpMethod.AllPass
            ? new AllPassChain(settings.SpreadSeconds * sampleRateHertz, settings.Seed)
            : new VelvetNoise(settings.SpreadSeconds, sampleRateHertz, settings.Seed);
        _lowEnd = new(settings.LowestHertz / sampleRateHertz);
        _gain = SettingsRules.Ratio(settings.LevelDecibels);
        _keepsSide = settings.KeepsSide;
        SettlingFrames = _decorrelator.SettlingFrames + _lowEnd.SettlingFrames;
        Begin(0);
    }

    /// <inheritdoc/>
    public int LatencyFrames => 0;

    /// <inheritdoc/>
    public long SettlingFrames { get; }

    /// <inheritdoc/>
    public void Begin(long firstFrame)
    {
        _decorrelator.Begin();
        _lowEnd.Begin();
    }

    /// <inheritdoc/>
    public void Process(Span<double> mid, Span<double> side)
    {
        SettingsRules.SameLength(mid, side);
        for (var n = 0; n < mid.Length; n += Run)
        {
            var made = _made.AsSpan(0, Math.Min(Run, mid.Length - n));
            mid.Slice(n, made.Length).CopyTo(made);
            _decorrelator.Process(made);
            _lowEnd.Process(made);
            var target = side.Slice(n, made.Length);
            for (var k = 0; k < made.Length; k++)
                target[k] = _keepsSide ? target[k] + (_gain * made[k]) : _gain * made[k];
        }
    }
}
