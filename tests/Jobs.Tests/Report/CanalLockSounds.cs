namespace Athwart.Jobs.Tests.Report;

/// <summary>Invented sounds of a canal lock, made of noise and tones, for pictures to look at; no recording is involved.</summary>
internal sealed class CanalLockSounds(int sampleRateHertz, uint seed)
{
    private uint _state = seed;

    public delegate (double Mid, double Side) Voice(double seconds, CanalLockSounds sounds);

    /// <summary>Frame after frame of a voice.</summary>
    public (float[] Mid, float[] Side) Play(double seconds, Voice voice)
    {
        var frames = (int)(seconds * sampleRateHertz);
        var (mid, side) = (new float[frames], new float[frames]);
        for (var i = 0; i < frames; i++)
        {
            var (m, s) = voice((double)i / sampleRateHertz, this);
            (mid[i], side[i]) = ((float)m, (float)s);
        }

        return (mid, side);
    }

    /// <summary>White noise, −1 to 1.</summary>
    public double Noise()
    {
        _state = (_state * 1664525) + 1013904223;
        return ((_state >> 8) / 8388608.0) - 1;
    }

    /// <summary>Water through an opening sluice: swells, holds, with hiss far up.</summary>
    public static Voice SluiceRush()
    {
        double low = 0, wide = 0, high = 0, lowSide = 0;
        return (t, s) =>
        {
            var swell = Math.Min(1, Math.Pow(t / 4, 2)) * (1 + (0.2 * Math.Sin(t * 2.1)));
            var noise = s.Noise();
            low += 0.02 * (noise - low);
            wide += 0.25 * (noise - wide);
            high = noise - wide;
            lowSide += 0.05 * (s.Noise() - lowSide);
            return (swell * ((1.1 * low) + (0.3 * wide) + (0.07 * high)), swell * ((0.9 * lowSide) + (0.1 * s.Noise())));
        };
    }

    /// <summary>Steps that pass from left to right on gravel.</summary>
    public static Voice Footsteps()
    {
        double body = 0;
        return (t, s) =>
        {
            var since = t % 0.62;
            var grit = Math.Exp(-since * 22) + (0.35 * Math.Exp(-Math.Abs(since - 0.13) * 40));
            var noise = s.Noise();
            body += 0.09 * (noise - body);
            var step = grit * ((0.55 * noise) + (2.2 * body)) * 0.5;
            var across = 0.9 - (t / 5);
            return (step + (0.0006 * s.Noise()), (step * across) + (0.0009 * s.Noise()));
        };
    }

    /// <summary>The lift bridge: a motor that runs up, holds and stops, with gear whine.</summary>
    public static Voice BridgeMotor()
    {
        double phase = 0, rumble = 0;
        return (t, s) =>
        {
            var speed = Math.Min(1, t / 2.5) * (t < 10 ? 1 : Math.Max(0, 1 - ((t - 10) / 1.8)));
            phase += 47 * speed / 48000;
            rumble += 0.01 * (s.Noise() - rumble);
            double tone = 0;
            for (var h = 1; h <= 12; h++)
                tone += Math.Sin(2 * Math.PI * h * phase) / (h + 2);
            var whine = 0.05 * Math.Sin(2 * Math.PI * 41.3 * phase);
            var loud = Math.Sqrt(speed);
            return (loud * ((0.22 * tone) + whine + rumble) + (0.0004 * s.Noise()), (loud * ((0.05 * Math.Sin((2 * Math.PI * 3 * phase) + 0.8)) + (0.8 * rumble))) + (0.0004 * s.Noise()));
        };
    }

    /// <summary>A gate that creaks: a glide with overtones up beyond hearing.</summary>
    public static Voice GateCreak()
    {
        double phase = 0;
        return (t, s) =>
        {
            var grip = Math.Pow(Math.Max(0, Math.Sin((t * 2.4) + (0.6 * Math.Sin(t * 5)))), 2);
            phase += (170 + (60 * Math.Sin(t * 1.7)) + (90 * grip)) / 96000;
            double creak = 0;
            for (var h = 1; h < 140; h += h < 16 ? 1 : 17)
                creak += Math.Sin(2 * Math.PI * h * phase * (1 + (h * 0.0004))) / Math.Pow(h, 0.9);
            return ((grip * 0.3 * creak) + (0.0003 * s.Noise()), (grip * 0.11 * creak * Math.Sin(t * 1.1)) + (0.0005 * s.Noise()));
        };
    }

    /// <summary>A narrow boat that passes from left to right.</summary>
    public static Voice BoatPassBy()
    {
        double wash = 0, washSide = 0;
        return (t, s) =>
        {
            var near = 1 / (1 + Math.Pow((t - 36) / 9, 2));
            var beat = Math.Pow(Math.Max(0, Math.Sin(2 * Math.PI * 6.4 * t)), 6);
            wash += 0.06 * (s.Noise() - wash);
            washSide += 0.06 * (s.Noise() - washSide);
            var engine = near * ((0.35 * beat * Math.Sin(2 * Math.PI * 62 * t)) + (0.5 * near * wash));
            return (engine + (0.002 * s.Noise()), (engine * Math.Clamp((36 - t) / 20, -0.9, 0.9)) + (0.45 * near * washSide) + (0.002 * s.Noise()));
        };
    }

    /// <summary>Wide night air: the side louder than the mid, a bell far off.</summary>
    public static Voice NightAmbience()
    {
        double air = 0, airSide = 0;
        return (t, s) =>
        {
            air += 0.03 * (s.Noise() - air);
            airSide += 0.03 * (s.Noise() - airSide);
            var since = t % 41;
            var bell = since < 9 ? 0.006 * Math.Exp(-since) * (Math.Sin(2 * Math.PI * 587 * t) + (0.5 * Math.Sin(2 * Math.PI * 1411 * t))) : 0;
            var wind = 1 + (0.6 * Math.Sin(t * 0.21));
            return ((0.02 * air) + bell + (0.0002 * s.Noise()), (0.028 * airSide * wind) + (0.4 * bell) + (0.0003 * s.Noise()));
        };
    }
}
