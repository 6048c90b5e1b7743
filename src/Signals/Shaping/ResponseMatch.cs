using System.Globalization;
using Athwart.Signals.Convolution;
using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping;

/// <summary>Brings one microphone's response to the other's, by the third-octave corrections of a rig profile.</summary>
public sealed record ResponseMatch
{
    /// <summary>The furthest a correction goes either way, in dB: beyond it noise would be raised, not sound.</summary>
    public const double MostCorrectionDecibels = 12;

    private readonly EquatableList<CurvePoint> _bands;

    // The third octave of each, counted once: a filter that is drawn asks at every point of its curve.
    private readonly EquatableList<int> _numbers;

    /// <summary>Names what is corrected and by how much.</summary>
    /// <param name="roles">Mid, side or both; a line-up's corrections are for the side.</param>
    /// <param name="bands">
    /// Corrections at nominal third-octave frequencies (…, 800, 1000, 1250, …), rising, −12 to +12 dB. Bands not named are unknown and are not
    /// corrected; between bands the correction goes straight over the logarithm of frequency, and beyond the last known one it
    /// falls to 0 dB within a third of an octave.
    /// </param>
    /// <param name="phase">Minimum, as microphones are, or linear.</param>
    /// <exception cref="ArgumentException">A band is out of range, out of order, twice there or no third octave.</exception>
    public ResponseMatch(PairRoles roles, IReadOnlyList<CurvePoint> bands, FilterPhase phase = FilterPhase.Minimum)
    {
        Roles = SettingsRules.Roles(roles);
        _bands = CurveRules.Points(bands, 64, -MostCorrectionDecibels, MostCorrectionDecibels);
        Phase = CurveRules.Phase(phase);
        _numbers = new(_bands.Select(b => (int)Math.Round(Place(b.Hertz))));
        for (var k = 0; k < bands.Count; k++)
        {
            if (Math.Abs(Place(bands[k].Hertz) - _numbers[k]) > 0.2 || (k > 0 && _numbers[k - 1] == _numbers[k]))
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"Corrections are one for each third octave (…, 800, 1000, 1250, … Hz); {bands[k].Hertz} Hz is none or comes twice."), nameof(bands));
        }
    }

    /// <summary>What is corrected.</summary>
    public PairRoles Roles { get; }

    /// <summary>The known corrections.</summary>
    public IReadOnlyList<CurvePoint> Bands => _bands;

    /// <summary>Minimum or linear phase.</summary>
    public FilterPhase Phase { get; }

    /// <summary>The correction in dB at a frequency in hertz; 0 where nothing is known.</summary>
    public double DecibelsAt(double hertz)
    {
        var place = Place(Math.Max(hertz, 1));
        var below = (int)Math.Floor(place);
        var (low, high) = (Of(below), Of(below + 1));
        return low + ((place - below) * (high - low));
    }

    // In third octaves (to the base ten) from 1 kHz.
    private static double Place(double hertz) => FixedExponential.Decibels(hertz / 1000) / 2;

    private double Of(int band)
    {
        for (var k = 0; k < _numbers.Count; k++)
        {
            if (_numbers[k] == band)
                return _bands[k].Decibels;
        }

        return 0;
    }
}

/// <summary><see cref="ResponseMatch"/> at work.</summary>
public sealed class ResponseMatchStage : CurveStage
{
    /// <summary>Prepares the filter at a rate.</summary>
    /// <param name="settings">What to do.</param>
    /// <param name="sampleRateHertz">Sample rate in hertz.</param>
    public ResponseMatchStage(ResponseMatch settings, int sampleRateHertz)
        : this(settings, DesignedTaps.Of(settings, "match", SettingsRules.Rate(sampleRateHertz), () => CurveFilter.Design(settings.DecibelsAt, sampleRateHertz, settings.Phase, CurveFilter.Measured)))
    {
    }

    private ResponseMatchStage(ResponseMatch settings, double[] taps)
        : base(settings.Roles.HasFlag(PairRoles.Mid) ? taps : null, settings.Roles.HasFlag(PairRoles.Side) ? taps : null, settings.Phase)
    {
    }
}
