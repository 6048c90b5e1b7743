using Microsoft.Win32.SafeHandles;

namespace Athwart.Jobs.Listening;

/// <summary>Receives the bins of the finest stored level in order and writes every level as it fills; memory does not grow with the take.</summary>
internal sealed class PeakWriter
{
    private readonly SafeFileHandle _file;
    private readonly Level[] _levels;

    public PeakWriter(SafeFileHandle file, PeakLayout layout)
    {
        _file = file;
        _levels = new Level[layout.TopLevel - PeakLayout.StoredLevel + 1];
        for (var i = 0; i < _levels.Length; i++)
            _levels[i] = new(PeakPyramid.HeaderBytes + layout.Offset(PeakLayout.StoredLevel + i));
    }

    public void Add(in PeakSums bin) => Add(0, bin);

    /// <summary>Writes what is left: bins at the end that cover fewer frames.</summary>
    public void Complete()
    {
        for (var i = 0; i < _levels.Length; i++)
        {
            if (_levels[i].Children > 0)
                Emit(i);
            _levels[i].Flush(_file);
        }
    }

    // The finest level receives whole bins; every other collects four of the level below.
    private void Add(int index, in PeakSums bin)
    {
        var level = _levels[index];
        level.Sums.Add(bin);
        level.Children++;
        if (index == 0 || level.Children == 4)
            Emit(index);
    }

    private void Emit(int index)
    {
        var level = _levels[index];
        var bin = level.Sums;
        (level.Sums, level.Children) = (default, 0);
        level.Write(_file, bin);
        if (index + 1 < _levels.Length)
            Add(index + 1, bin);
    }

    private sealed class Level(long position)
    {
        private readonly byte[] _bytes = new byte[PeakLayout.BinsPerTile * PeakLayout.BinBytes];
        private long _position = position;
        private int _filled;

        public PeakSums Sums;

        public int Children { get; set; }

        public void Write(SafeFileHandle file, in PeakSums bin)
        {
            bin.WriteTo(_bytes.AsSpan(_filled));
            _filled += PeakLayout.BinBytes;
            if (_filled == _bytes.Length)
                Flush(file);
        }

        public void Flush(SafeFileHandle file)
        {
            RandomAccess.Write(file, _bytes.AsSpan(0, _filled), _position);
            _position += _filled;
            _filled = 0;
        }
    }
}
