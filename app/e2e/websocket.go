//go:build e2e

package e2e

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"io"
	"net"
	"net/http"
	"sync"
)

// socket is as much of a WebSocket client (RFC 6455) as talking to a browser on
// this machine takes: text messages, no extensions.
type socket struct {
	conn net.Conn
	in   *bufio.Reader
	mu   sync.Mutex // writing
}

func dial(host, path string) (*socket, error) {
	conn, err := net.Dial("tcp", host)
	if err != nil {
		return nil, err
	}
	fmt.Fprintf(conn, "GET %s HTTP/1.1\r\nHost: %s\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n"+
		"Sec-WebSocket-Version: 13\r\nSec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\n\r\n", path, host)
	in := bufio.NewReader(conn)
	answer, err := http.ReadResponse(in, nil)
	if err == nil && answer.StatusCode != http.StatusSwitchingProtocols {
		err = fmt.Errorf("websocket: %s", answer.Status)
	}
	if err != nil {
		conn.Close()
		return nil, err
	}
	return &socket{conn: conn, in: in}, nil
}

const (
	opText  = 1
	opClose = 8
	opPing  = 9
	opPong  = 10
)

func (s *socket) send(op byte, data []byte) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	frame := []byte{0x80 | op}
	switch n := len(data); {
	case n < 126:
		frame = append(frame, 0x80|byte(n))
	case n < 1<<16:
		frame = binary.BigEndian.AppendUint16(append(frame, 0x80|126), uint16(n))
	default:
		frame = binary.BigEndian.AppendUint64(append(frame, 0x80|127), uint64(n))
	}
	mask := [4]byte{1, 2, 3, 4} // any but zeros, which Firefox refuses
	frame = append(frame, mask[:]...)
	for i, c := range data {
		frame = append(frame, c^mask[i%4])
	}
	_, err := s.conn.Write(frame)
	return err
}

// receive returns the next whole message.
func (s *socket) receive() ([]byte, error) {
	var message []byte
	for {
		var head [2]byte
		if _, err := io.ReadFull(s.in, head[:]); err != nil {
			return nil, err
		}
		n := uint64(head[1] & 0x7f)
		switch n {
		case 126:
			var b [2]byte
			if _, err := io.ReadFull(s.in, b[:]); err != nil {
				return nil, err
			}
			n = uint64(binary.BigEndian.Uint16(b[:]))
		case 127:
			var b [8]byte
			if _, err := io.ReadFull(s.in, b[:]); err != nil {
				return nil, err
			}
			n = binary.BigEndian.Uint64(b[:])
		}
		data := make([]byte, n)
		if _, err := io.ReadFull(s.in, data); err != nil {
			return nil, err
		}
		switch head[0] & 0x0f {
		case opPing:
			s.send(opPong, data)
		case opPong:
		case opClose:
			return nil, io.EOF
		default:
			message = append(message, data...)
			if head[0]&0x80 != 0 {
				return message, nil
			}
		}
	}
}
